// What lies back: past sessions, each with verdicts, plots, cuts, report and package.

import { button, byId, element } from './dom.js';
import { get, onSubmit } from './acts.js';
import { edit, knowsStages, odd, told, whole } from './cut.js';
import * as inspect from './inspect.js';
import * as mend from './mend.js';
import { say } from './say.js';
import * as stages from './stages.js';
import * as steps from './steps.js';
import * as words from './words.js';

let shown;

const path = (session, rest) => `/api/v1/sessions/${session.number}/${rest}`;

function line(session) {
  const facts = [say('session.nth', { n: session.number }),
    session.name.startsWith(session.blade) ? '' : session.blade, words.day(session.opened),
    session.closed ? '' : say('session.open')];
  return element('li', {}, element('a', { class: 'row', href: `#sessions/${session.number}` },
    element('b', {}, session.name), element('span', {}, facts.filter(Boolean).join(' · '))));
}

const PAGE = 50;

// The newest, or those before the last one shown.
async function list(before) {
  const asked = new URLSearchParams({ limit: PAGE, text: byId('session-text').value });
  if (before) asked.set('before', before);
  const said = await get(`sessions?${asked}`);
  if (!said) return;
  const lines = said.sessions.map(line);
  if (before) byId('session-list').append(...lines);
  else byId('session-list').replaceChildren(...lines);
  byId('session-none').hidden = byId('session-list').childElementCount > 0;
  byId('session-none').textContent = say(byId('session-text').value ? 'past.not_found' : 'past.none');
  byId('session-older').hidden = lines.length < PAGE;
  byId('session-older').onclick = () => list(said.sessions.at(-1).number);
}

// A press shows it alone, as large as the screen.
// Asked for anew each time: the browser would show the picture from before a mend.
export function picture(address, text) {
  const now = `${address}${address.includes('?') ? '&' : '?'}at=${Date.now()}`;
  return element('a', { class: 'picture', href: now, target: '_blank', rel: 'noopener' },
    element('img', { class: 'plot', src: now, alt: text, loading: 'lazy' }));
}

// What a session brought, in one line; the last stage against the first.
export function outcome(session) {
  const brought = session.outcome;
  if (!brought) return [element('p', { class: 'verdict' }, say('outcome_of.none'))];
  return [
    element('p', { class: 'note' }, say('outcome_of.what', { first: brought.first.stage, second: brought.second.stage })),
    element('p', { class: 'stage-figures' }, `${brought.first.stage}: ${words.mean(brought.first)}`),
    element('p', { class: 'stage-figures' }, `${brought.second.stage}: ${words.mean(brought.second)}`),
    ...stages.verdict(brought),
  ];
}

export function reports(session) {
  return element('p', { class: 'acts' },
    element('a', { class: 'button', href: path(session, 'report'), target: '_blank', rel: 'noopener', 'data-act': 'report' }, say('past.report_read')),
    element('a', { class: 'button', href: path(session, 'report?save=true'), download: '' }, say('past.report_save')));
}

function plots(session) {
  return [
    ...(session.outcome ? [picture(path(session, 'progression.svg'), say('plot.progression', { session: session.name }))] : []),
    ...session.stages.filter((stage) => stage.figures).map((stage) => element('details', {},
      element('summary', {}, say('plot.stage', { stage: stage.name })),
      picture(path(session, `stage.svg?stage=${encodeURIComponent(stage.name)}`), say('plot.stage', { stage: stage.name })))),
  ];
}

function cuts(session) {
  return session.cuts.map((cut) => {
    const text = whole(cut);
    const made = button('', () => edit(cut), { class: 'row', 'aria-label': say('cuts.label', { n: cut.id, value: text, stage: cut.stage }) });
    made.append(element('b', {}, cut.set_aside ? `(${text})` : text),
      element('span', {}, told(cut)), ...odd(cut).map((what) => element('span', { class: 'warn' }, what)));
    return element('li', {}, made);
  });
}

// What was noted in each stage: photos to look at or add, and the way to withdraw.
function noted(session) {
  return session.stages.filter((stage) => stage.steps.length + stage.inspections.length > 0).flatMap((stage) => [
    element('h3', {}, stage.name),
    element('ul', { class: 'plain' }, ...steps.noted(session, stage, refresh),
      ...stage.inspections.map((inspection) => inspect.line(session, inspection, refresh)))]);
}

async function one(number) {
  shown = await get(`sessions/${number}`);
  byId('past').hidden = !shown;
  if (!shown) return;
  knowsStages(shown);
  byId('past-title').textContent = say('session.titled', { n: shown.number, name: shown.name });
  byId('past-facts').textContent = [shown.blade, words.day(shown.opened),
    shown.closed ? say('session.until', { at: words.day(shown.closed) }) : say('session.open'), stages.margin(shown)].join(' · ');
  byId('past-outcome').replaceChildren(...outcome(shown), reports(shown));
  byId('past-plots').replaceChildren(...plots(shown));
  byId('past-stages').replaceChildren(...stages.rows(shown));
  byId('past-noted').replaceChildren(...noted(shown));
  byId('past-noted-box').hidden = byId('past-noted').childElementCount === 0;
  byId('past-cuts').replaceChildren(...cuts(shown));
  byId('past-cuts-box').hidden = shown.cuts.length === 0;
  byId('past-reopen').hidden = !shown.closed;
  stages.offer('past', shown);
}

// Opens the list, or one session.
export function open(number) {
  byId('past-list').hidden = number !== undefined;
  byId('past').hidden = true;
  if (number === undefined) list();
  else one(number);
}

export const refresh = () => shown && !byId('past').hidden && one(shown.number);

export function usual(set) {
  if (set.licence && !byId('package-licence').dataset.chosen) byId('package-licence').value = set.licence;
}

function save() {
  const asked = new URLSearchParams();
  for (const name of ['licence', 'name', 'contributor']) {
    const text = byId(`package-${name}`).value.trim();
    if (text) asked.set(name === 'name' ? 'title' : name, text);
  }
  if (byId('package-personal').checked) asked.set('personal', 'true');
  if (byId('package-photos').checked) asked.set('photos', 'true');
  byId('package-link').href = path(shown, `package?${asked}`);
  byId('package-link').click();
}

export function begin() {
  stages.compares('past', () => shown);
  onSubmit('package-form', save);
  onSubmit('session-search', () => list());
  byId('package-licence').addEventListener('change', (event) => (event.target.dataset.chosen = 'yes'));
  byId('past-mend').addEventListener('click', () => mend.open(shown, refresh));
  byId('past-reopen').addEventListener('click', () => mend.reopen(shown, refresh));
}
