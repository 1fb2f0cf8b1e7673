// The waiting entries as a file: shared where the phone can share files, else downloaded.
import { today } from './dates.js';
import { saveFile } from './save-file.js';

export async function saveEntries(ui) {
  try {
    const blob = await ui.engine.file();
    const file = new File([blob], `exergue-entries-${today()}.json`, { type: 'application/json' });
    if (navigator.canShare?.({ files: [file] }) && matchMedia('(pointer: coarse)').matches) {
      await navigator.share({ files: [file], title: file.name });
      return;
    }
    saveFile(file);
    ui.say(`Saved as ${file.name}. The entries stay on this phone too.`);
  } catch (error) {
    if (error.name !== 'AbortError') ui.say('The file could not be saved.', { tone: 'bad' });
  }
}
