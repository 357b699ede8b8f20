// The only way this page makes elements: text from devices and people goes in as text, never as markup.

export const byId = (id) => document.getElementById(id);

export function element(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === undefined) continue;
    made.setAttribute(name, value === true ? '' : String(value));
  }
  made.append(...children.filter((child) => child !== undefined && child !== ''));
  return made;
}

export function drawn(tag, attributes = {}, text) {
  const made = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  if (text !== undefined) made.textContent = text;
  return made;
}

// Replaces children only when something changed, so that focus and screen readers are left in peace.
export function fill(parent, key, make) {
  const text = JSON.stringify(key);
  if (parent.dataset.key === text) return;
  parent.dataset.key = text;
  parent.replaceChildren(...make());
}

export function button(text, act, attributes = {}) {
  const made = element('button', { type: 'button', ...attributes }, text);
  made.addEventListener('click', act);
  return made;
}
