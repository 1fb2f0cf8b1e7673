// Naming the coin in the hand: one question at a time or any that the person likes, the likeliest types always in sight.
import { html, nothing, repeat } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { options } from '../parts/options.js';
import { pickGrade } from '../parts/grade-picker.js';
import { ask, CANNOT_TELL, explain, impossible, nameOf, prepare, questions, weigh } from '../name/index.js';
import { candidate, percent } from '../naming/candidate.js';
import { makeOwned } from '../parts/owned.js';
import { serves } from '../parts/wanted.js';
import { askedBySighting, fresh, handOver, handTo, keep, readKept } from '../naming/kept.js';
import { makeQuestion } from '../naming/question.js';
import { calibrate } from '../naming/scale.js';

const SHOWN = 4;
let naming = null; // of this reference; made once

export function open(ui) {
  const { engine } = ui;
  if (naming?.reference !== engine.reference) naming = prepare(engine.reference);
  let state = readKept();
  let weighed;
  let asked = null; // {question, view}: what stands on the screen
  let why = '';

  function think() {
    weighed = weigh(naming, state);
    const next = ask(naming, state, weighed.shares);
    why = next.why;
    put(next.question);
  }

  function put(question) {
    asked = question && { question, view: makeQuestion(ui, question, (answer) => give(question.feature, answer)) };
    ui.update();
  }

  function give(feature, answer) {
    state.answers[feature] = answer;
    state.order = [...state.order.filter((one) => one !== feature), feature];
    changed();
    ui.closeSheet();
    document.querySelector('.pane.place')?.scrollTo?.(0, 0);
  }

  function changed() {
    keep(state);
    think();
  }

  think();
  return { title: 'Name a coin', view };

  function view() {
    const wrong = impossible(state.answers);
    return html`${head(ui, { title: 'Name a coin', back: '/types', extra: html`<button class="round" aria-label="Settings" @click=${settings}>${icon('more')}</button>` })}
      <div class="body gap naming">
        ${state.order.length ? html`<ol class="likely" aria-label="Likeliest types">${repeat(weighed.ranking.slice(0, SHOWN), (one) => one.type, row)}
          ${weighed.none > 0.02 ? html`<li class="none"><span>None of these</span><span class="figures">${percent(weighed.none)}</span></li>` : nothing}</ol>`
        : html`<p class="soft">Answer what you can see. The likeliest types come here with the first answer.</p>`}
        ${wrong ? html`<div class="callout warn" role="alert">${icon('warn')}<p>${wrong}</p></div>` : nothing}
        ${asked ? asked.view() : ended()}
        ${state.order.length ? html`<section class="stack"><h2 class="small-head">Answered</h2><div class="chips given">${state.order.map((feature) => html`<button class="chip on" @click=${() => again(feature)}>${nameOf(naming, feature)}: ${said(feature)}</button>`)}</div></section>` : nothing}
      </div>
      <div class="actions"><div class="line"><button class="button grow" @click=${others}>${icon('search')}Answer another</button>
        <button class="button" ?disabled=${!state.order.length} @click=${restart}>Start over</button></div></div>`;
  }

  function row({ type, title, p }, i) {
    const known = engine.reference.types[type];
    return html`<li><button @click=${() => explained(type)}><span class="name"><b>${known.name}</b><small class="soft">${title.slice(0, title.indexOf(','))}</small></span>
      <span class="figures">${percent(p)}</span>${icon('on')}<svg class="share" aria-hidden="true" height="4"><rect class="all" width="100%" height="4"/><rect class=${i === 0 ? 'top' : ''} width=${`${(p * 100).toFixed(1)}%`} height="4"/></svg></button></li>`;
  }

  function ended() {
    const top = weighed.ranking[0];
    if (weighed.none > top.p) return html`<section class="asked"><h2>None of the catalogue’s types</h2><p>What was answered fits no type well. Look at the answers below once more, or show the coin to somebody who knows the series.</p></section>`;
    return html`<section class="asked"><h2>${why === 'sure' ? top.title : 'No further question would tell much'}</h2>
      <p>${why === 'sure' ? 'See what fits, what would contradict, and what you have of it.' : 'The likeliest types stand above; press one to see what tells it from the next.'}</p>
      <button class="button main wide" @click=${() => explained(top.type)}>${icon('glass')}${why === 'sure' ? 'See why, and go on' : `See ${engine.reference.types[top.type].name}`}</button></section>`;
  }

  async function explained(key) {
    const type = engine.reference.types[key];
    const wants = (await engine.list('want')).filter((want) => serves(want, key));
    const owned = makeOwned(ui);
    const told = explain(naming, state, weighed.shares, key);
    ui.sheet(told.title, () => candidate(told, type, {
      owned: owned.view({ type: key, ...named(type), grade: state.grade }), wants, rivalName: told.rival ? engine.reference.types[told.rival].title : 'another',
      currency: engine.state.currency, act: { open: (want) => record(key, type, want), seen: (want) => seen(key, type, want), forSighting: askedBySighting() } }));
  }

  // Date and mint as they were answered.
  function named(type) {
    const { date, mint } = state.answers;
    return { year: /^\d{4}$/.test(date ?? '') ? date : type.single ? String(type.years[0]) : '', mint: mint && mint !== CANNOT_TELL ? mint : '' };
  }

  function record(key, type, want) {
    const path = handOver({ denom: type.denom, type: key, ...named(type), grade: state.grade }, want);
    ui.closeSheet();
    ui.go(path);
  }

  function seen(key, type, want) {
    ui.closeSheet();
    ui.go(handTo('/seen/new', { denom: type.denom, type: key, ...named(type), grade: state.grade, ...(want ? { want } : {}) }));
  }

  function others() {
    const open = questions(naming, state, weighed.shares);
    const list = open.map((one) => [one.feature, one.name, null, one.look]);
    const denoms = state.answers.denom === undefined ? [['denom', 'Denomination', null, 'Where it can be read, or you know it.']] : [];
    ui.sheet('Answer another', () => options([...denoms, ...list], asked?.question.feature, (feature) => {
      if (feature === 'denom') { denominations(); return; }
      ui.closeSheet();
      put(open.find((one) => one.feature === feature));
    }));
  }

  function denominations() {
    ui.sheet('Denomination', () => options(engine.reference.denominations.map((one) => [one.key, one.name]), null, (key) => give('denom', key)));
  }

  function again(feature) {
    delete state.answers[feature];
    state.order = state.order.filter((one) => one !== feature);
    changed();
    if (feature === 'denom') { denominations(); return; }
    const one = questions(naming, state, weighed.shares).find((each) => each.feature === feature);
    if (one) put(one);
  }

  function restart() {
    state = { ...fresh(), prior: state.prior, tools: state.tools };
    changed();
  }

  function settings() {
    const tick = (name, words) => html`<label class="tick"><input type="checkbox" .checked=${Boolean(state.tools[name])} @change=${(event) => { state.tools = { ...state.tools, [name]: event.target.checked }; changed(); }}><span>${words}</span></label>`;
    ui.sheet('How it asks', () => html`<div class="gap">
      <div class="stack"><h3>Wear</h3><p class="small soft">What a worn coin cannot show is not asked.</p><button class="button wide" @click=${() => pickGrade(ui, state.grade, (grade) => { state.grade = grade; changed(); })}>${state.grade || 'Say a grade'}</button></div>
      <div class="stack"><h3>At hand</h3>${tick('glass', 'A glass')}${tick('scale', 'A scale')}${tick('water', 'Water and a thread, for specific gravity')}</div>
      <div class="stack"><h3>Before the first answer</h3>
        <label class="tick"><input type="radio" name="prior" .checked=${state.prior === 'survivors'} @change=${() => { state.prior = 'survivors'; changed(); }}><span>Common types are likelier</span></label>
        <label class="tick"><input type="radio" name="prior" .checked=${state.prior === 'uniform'} @change=${() => { state.prior = 'uniform'; changed(); }}><span>All types are alike</span></label></div>
      <button class="button wide" @click=${() => calibrate(ui, ui.update)}>${icon('ring')}Set the true scale of the screen</button></div>`);
  }

  function said(feature) {
    const answer = state.answers[feature];
    if (answer === CANNOT_TELL) return 'cannot tell';
    if (feature === 'denom') return engine.reference.denominations.find((one) => one.key === answer)?.name ?? answer;
    if (feature === 'size') return `${answer.mm.toFixed(2)} mm`;
    if (feature === 'weight') return `${answer.g} g`;
    if (feature === 'gravity') return answer.density.toFixed(2);
    if (feature === 'mint') return answer || 'no mark';
    return engine.reference.features[feature]?.values?.[answer] ?? answer;
  }
}
