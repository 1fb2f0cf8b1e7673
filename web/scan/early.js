// The scanner begins before the app does: its reader and its camera are the longest waits of a start that opens with it.
import { askEarly } from './camera.js';
import { reader } from './reader.js';

if (location.pathname === '/scan') {
  reader().catch(() => {});
  askEarly().catch(() => {}); // not every browser tells whether it may: then the scanner asks
}
