// The scanner's reader begins before the app does: it is the longest wait of a start that opens with the camera.
import { reader } from './reader.js';

if (location.pathname === '/scan') reader().catch(() => {});
