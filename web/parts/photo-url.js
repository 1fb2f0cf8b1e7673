// Where a photo is to be had: on this phone while it waits, else from the desk (kept once seen).
const mine = new Map(); // photo → object URL

export function photoUrl(ui, photo, size) {
  if (mine.has(photo.photo)) return mine.get(photo.photo);
  return `/api/photo/${photo.photo}?size=${size}`;
}
