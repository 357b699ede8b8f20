// Every word of the page, from the one catalog of its language.

import { catalog } from './catalog.js';

const fitted = (text, values) => text.replace(/\{(\w+)\}/g, (place, name) => values[name] ?? place);

export const knows = (key) => key in catalog;

export function say(key, values = {}) {
  if (!knows(key)) console.warn(`no text for ${key}`);
  return fitted(catalog[key] ?? key, values);
}

// One or many: KEY.one and KEY.many, with the number as {n}.
export const count = (key, n, values = {}) => say(`${key}.${n === 1 ? 'one' : 'many'}`, { n, ...values });

// What a word of the interface is called; a word that came later than this page stays as it is.
export const named = (kind, word) => (knows(`${kind}.${word}`) ? say(`${kind}.${word}`) : word.replaceAll('_', ' '));
