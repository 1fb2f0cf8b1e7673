// lit-html by one name. No `style=${…}` anywhere: the page's security policy blocks it.
export { html, svg, nothing, render } from '../vendor/lit-html/lit-html.js';
export { repeat } from '../vendor/lit-html/directives/repeat.js';
export { live } from '../vendor/lit-html/directives/live.js';
export { ref } from '../vendor/lit-html/directives/ref.js';
