// The other party of a deal: its field, and what an entry says of it. The one place where a contact of the book would come in.
import { text } from './field.js';

const NAMES = { sale: ['to', 'Buyer'], ticket: ['to', 'Buyer'], purchase: ['from', 'From'], trade: ['with', 'With'] };

export const partyField = (form, kind) => text(form, 'party', NAMES[kind][1], { help: 'May stay empty.', caps: 'words' });

/** The party as an entry of this kind holds it: {to|from|with: name}, {} where none was given. */
export const partyOf = ({ party }, kind) => (party.trim() ? { [NAMES[kind][0]]: party.trim() } : {});

/** The name in an entry, for the field. */
export const partySaid = ({ kind, body }) => body[NAMES[kind][0]] ?? '';
