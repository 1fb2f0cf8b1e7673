// Voiding the last entry made on this phone: a later entry that undoes it, nothing is erased.
export async function undoLast(ui) {
  try {
    const undone = await ui.engine.voidLast();
    ui.say(undone ? 'The last entry is voided.' : 'There is no entry to void.');
  } catch (error) {
    ui.say(error.message ?? 'It could not be voided.', { tone: 'bad' });
  }
}
