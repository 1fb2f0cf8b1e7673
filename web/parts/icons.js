// Line drawings on a 24-unit grid, made for this project. Decorative: the control beside one carries the words.
import { html, svg } from './html.js';

const DRAWN = {
  stock: svg`<rect x="3.5" y="3.5" width="17" height="17" rx="1.5"/><circle cx="12" cy="12" r="5"/><path d="M6 7v1.6M18 15.4V17"/>`,
  scan: svg`<path d="M4 8V5.5A1.5 1.5 0 0 1 5.5 4H8M16 4h2.5A1.5 1.5 0 0 1 20 5.5V8M20 16v2.5a1.5 1.5 0 0 1-1.5 1.5H16M8 20H5.5A1.5 1.5 0 0 1 4 18.5V16"/><circle cx="12" cy="12" r="4"/>`,
  wants: svg`<circle cx="7" cy="7" r="3.2" stroke-dasharray="2.1 1.6"/><circle cx="7" cy="17" r="3.2"/><path d="M13.5 7H21M13.5 17H21M5.6 17l1 1.1 1.9-2.2"/>`,
  entries: svg`<path d="M4 13v5.5A1.5 1.5 0 0 0 5.5 20h13a1.5 1.5 0 0 0 1.5-1.5V13M4 13h4.5l1.5 2.5h4l1.5-2.5H20M12 11V3.5M8.8 6.5 12 3.3l3.2 3.2"/>`,
  more: svg`<path d="M4 7h16M4 12h16M4 17h10"/>`,
  back: svg`<path d="m14.5 5-7 7 7 7"/>`,
  on: svg`<path d="m9.5 5 7 7-7 7"/>`,
  down: svg`<path d="m6 9.5 6 6 6-6"/>`,
  close: svg`<path d="m6 6 12 12M18 6 6 18"/>`,
  search: svg`<circle cx="10.5" cy="10.5" r="6"/><path d="m15 15 5.5 5.5"/>`,
  glass: svg`<circle cx="10" cy="10" r="6.5"/><path d="m14.8 14.8 5.7 5.7M7 10a3 3 0 0 1 3-3"/>`,
  torch: svg`<path d="M8 3.5h8v3l-2 3v9a2 2 0 0 1-4 0v-9l-2-3zM8 6.5h8M12 12.5v2"/>`,
  keys: svg`<rect x="3" y="6" width="18" height="12" rx="1.5"/><path d="M6.5 9.7h1M10.2 9.7h1M13.8 9.7h1M17 9.7h.5M6.5 12.3h1M10.2 12.3h1M13.8 12.3h1M17 12.3h.5M8 15h8"/>`,
  picture: svg`<rect x="3.5" y="4.5" width="17" height="15" rx="1.5"/><circle cx="9" cy="9.5" r="1.8"/><path d="m4 17 5-4.5 3.5 3L16 12l4.5 4"/>`,
  camera: svg`<path d="M4 8.5A1.5 1.5 0 0 1 5.5 7h2.3l1.4-2h5.6l1.4 2h2.3A1.5 1.5 0 0 1 20 8.5v9a1.5 1.5 0 0 1-1.5 1.5h-13A1.5 1.5 0 0 1 4 17.5z"/><circle cx="12" cy="12.7" r="3.5"/>`,
  eye: svg`<path d="M2.5 12S6 5.5 12 5.5 21.5 12 21.5 12 18 18.5 12 18.5 2.5 12 2.5 12z"/><circle cx="12" cy="12" r="2.8"/>`,
  hidden: svg`<path d="M2.5 12S6 5.5 12 5.5 21.5 12 21.5 12 18 18.5 12 18.5 2.5 12 2.5 12zM4 20 20 4"/>`,
  note: svg`<path d="M5 19.5 6 15 16.2 4.800a1.4 1.4 0 0 1 2 0l1 1a1.4 1.4 0 0 1 0 2L9 18zM14.5 6.5l3 3M13 20h7"/>`,
  move: svg`<path d="M3.5 8.5 12 4l8.5 4.5v7L12 20l-8.5-4.5zM3.5 8.5 12 13l8.5-4.5M12 13v7"/>`,
  sell: svg`<path d="M4 12.5V5.5A1.5 1.5 0 0 1 5.5 4h7L20 11.5a1.5 1.5 0 0 1 0 2.100L13.6 20a1.5 1.5 0 0 1-2.1 0z"/><circle cx="8.5" cy="8.5" r="1.3"/>`,
  fits: svg`<path d="m5 12.5 4.5 4.5L19 7"/>`,
  differs: svg`<path d="m6.5 6.5 11 11M17.5 6.5l-11 11"/>`,
  unsure: svg`<path d="M8.8 9a3.2 3.2 0 1 1 5 2.700c-1.2.9-1.8 1.5-1.8 3M12 18.200v.3"/>`,
  warn: svg`<path d="M12 4 2.8 19.5h18.400zM12 10v4.5M12 17v.2"/>`,
  sync: svg`<path d="M19.5 9A8 8 0 0 0 5.2 7.5L4 9M4 4.5V9h4.5M4.5 15a8 8 0 0 0 14.3 1.5L20 15M20 19.5V15h-4.5"/>`,
  save: svg`<path d="M12 4v11M7.5 10.7 12 15.200l4.5-4.5M5 20h14"/>`,
  add: svg`<path d="M12 5v14M5 12h14"/>`,
  undo: svg`<path d="M8.5 5 4.5 9l4 4M4.5 9H15a4.5 4.5 0 0 1 0 9.5H9"/>`,
  phone: svg`<rect x="7" y="3" width="10" height="18" rx="2"/><path d="M11 18h2"/>`,
  show: svg`<path d="M4 9.5 5.5 4.5h13L20 9.5M4 9.5a2.7 2.7 0 0 0 5.3 0 2.7 2.7 0 0 0 5.4 0 2.7 2.7 0 0 0 5.3 0M5.5 12v8h13v-8M9.5 20v-5h5v5"/>`,
  book: svg`<path d="M5 5.5A1.5 1.5 0 0 1 6.5 4H19v16H6.5A1.5 1.5 0 0 1 5 18.5zM5 18.5A1.5 1.5 0 0 1 6.5 17H19M9 8h6"/>`,
  wait: svg`<circle cx="12" cy="12" r="8"/><path d="M12 7.5V12l3 2"/>`,
  buy: svg`<circle cx="10" cy="12" r="6.5"/><path d="M17.5 4v5M15 6.5h5"/>`,
  leave: svg`<path d="M13 4H6.5A1.5 1.5 0 0 0 5 5.5v13A1.5 1.5 0 0 0 6.5 20H13M10 12h10.5M17 8.5l3.5 3.5-3.5 3.5"/>`,
  dot: svg`<circle cx="12" cy="12" r="5" fill="currentColor"/>`,
  ring: svg`<circle cx="12" cy="12" r="5.5"/>`,
  out: svg`<path d="M6 18 18 6M9 6h9v9"/>`,
  high: svg`<path d="m6 13 6-6 6 6M6 18l6-6 6 6"/>`,
  low: svg`<path d="m6 9 6 6 6-6"/>`,
};

export function icon(name, extra = '') {
  return html`<svg class="icon ${extra}" viewBox="0 0 24 24" aria-hidden="true" focusable="false">${DRAWN[name]}</svg>`;
}
