// Where a photo is to be had: on this phone while it waits, else from the desk (kept once seen).
const mine = new Map(); // photo → object URL of one that this phone still holds

export function photoUrl(photo, size) {
  return mine.get(photo.photo) ?? `/api/photo/${photo.photo}?size=${size}`;
}

// Photos that wait on this phone, read before a screen draws them.
export async function readWaiting(engine, photos) {
  await Promise.all((photos ?? []).map(async ({ photo, local }) => {
    if (!local || mine.has(photo)) return;
    const blob = await engine.photo(photo);
    if (blob) mine.set(photo, URL.createObjectURL(blob));
  }));
}
