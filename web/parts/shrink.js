// A photo as it is kept: at most 1600 px on its longer side, JPEG, upright, without the camera's data.
const MOST = 1600;

// Raises an Error with one sentence for what is no picture.
export async function shrink(file) {
  let picture;
  try {
    picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    throw new Error('That file is not a picture this phone can read.');
  }
  const scale = Math.min(1, MOST / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const paper = canvas.getContext('2d');
  paper.fillStyle = '#fff';
  paper.fillRect(0, 0, canvas.width, canvas.height);
  paper.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  const blob = await new Promise((done) => canvas.toBlob(done, 'image/jpeg', 0.86));
  canvas.width = canvas.height = 0; // iOS frees a canvas late otherwise
  if (!blob) throw new Error('The photo could not be made smaller; this phone may be out of memory.');
  return blob;
}
