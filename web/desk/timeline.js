// The desk's timelines are the phone's, drawn in place of the plain list.
import { render } from '../parts/html.js';
import { timeline } from '../type/timeline.js';

const { types, held, now } = JSON.parse(document.getElementById('timeline').textContent);
const place = document.querySelector('[data-timeline]');
place.replaceChildren();
render(timeline(types, { held, now, link: (key) => `/desk/types/${key}` }), place);
