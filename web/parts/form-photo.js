// A photo taken in a form: made small at once, and shown until the form is left.
import { shrink } from './shrink.js';

/** {blob, url, take(form, event of a file field), close()}; `blob` is null and `url` '' before one is taken. */
export function makePhoto() {
  const photo = { blob: null, url: '', take, close };
  return photo;

  async function take(form, event) {
    const file = event.target.files[0];
    event.target.value = '';
    if (file) await form.run(async () => {
      photo.blob = await shrink(file);
      close();
      photo.url = URL.createObjectURL(photo.blob);
    });
  }

  function close() {
    if (photo.url) URL.revokeObjectURL(photo.url);
  }
}
