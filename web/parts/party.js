// The other party of a deal or a move: its field, which knows the contacts' names, and what an entry says of it.
import { text } from './field.js';

const NAMES = { sale: ['to', 'Buyer'], ticket: ['to', 'Buyer'], purchase: ['from', 'From'], trade: ['with', 'With'] };

let known = []; // names of the book's contacts, as last read

/** Read the contacts' names, for the fields of parties. */
export async function readParties(engine) {
  const contacts = await engine.list('contact');
  known = contacts.map((one) => one.name).filter(Boolean).sort((a, b) => a.localeCompare(b));
}

/** A field for the name of a party: whatever is typed will do, contacts are offered. */
export const nameField = (form, name, label, help = 'May stay empty.') => text(form, name, label, { help, caps: 'words', list: known });

export const partyField = (form, kind) => nameField(form, 'party', NAMES[kind][1]);

/** The party as an entry of this kind holds it: {to|from|with: name}, {} where none was given. */
export const partyOf = ({ party }, kind) => (party.trim() ? { [NAMES[kind][0]]: party.trim() } : {});

/** The name in an entry, for the field. */
export const partySaid = ({ kind, body }) => body[NAMES[kind][0]] ?? '';

/** The name of the party in an entry of any kind; '' where it has none. */
export const partyIn = ({ kind, body }) => body[NAMES[kind]?.[0] ?? 'with'] ?? '';
