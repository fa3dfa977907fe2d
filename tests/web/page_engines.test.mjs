// The engines of the page and of the page in one file: what a page asks they answer with the bytes of the whole engine; what it never
// asks, and what was therefore left out of them, they refuse, and go on. Of records the one in a file knows nothing.
//
//     node --test page_engines.test.mjs    with ENGINE and ROOT in the environment; the others lie beside ENGINE
import assert from 'node:assert/strict'
import fs from 'node:fs'
import path from 'node:path'
import { test } from 'node:test'

import { Engine } from '../../web/engine/engine.mjs'

const { ENGINE, ROOT } = process.env
const compiled = (name) => WebAssembly.compile(fs.readFileSync(path.join(path.dirname(ENGINE), `${name}.wasm`)))
const modules = { engine: await compiled('engine'), engine_page: await compiled('engine_page'), engine_alone: await compiled('engine_alone') }
const read = (file) => fs.readFileSync(path.join(ROOT, file))

const house = ['survey.json', read('examples/house/survey.json')]
const hum = Float32Array.from({ length: 8000 * 12 }, (_, i) => 0.2 * Math.fround(Math.sin(i * 0.7)))
const asked = {
  demand: [{}, { document: house }],
  design: [{}, { document: house }],
  check: [{ parts: 'verdicts,chance' }, { document: ['survey.json', read('examples/slam/survey.json')] }],
  report: [{ parts: 'all' }, { document: house }],
  diagnose: [{}, { document: ['case.json', read('examples/night-creep/case.json')] }],
  log: [{ parts: 'sheets' }, { log: ['night-rise.csv', read('examples/pressure-log/night-rise.csv')] }],
  listen: [{ parts: 'all,sheets' }, { recording: ['hum', hum, 8000, 1] }],
  describe: [{ language: 'es' }, {}],
}
const left_out = {
  calc: [{ calc: 'velocity', arguments: ['flow=12 gpm', 'bore=1 in'] }, {}],
  list: [{}, {}],
  import: [{}, { document: ['valves.csv', read('examples/own-catalogue/valves.csv')] }],
  fit: [{}, { document: ['capacity.csv', read('examples/own-catalogue/capacity.csv')] }],
  simulate: [{ event: 'closure' }, { document: ['survey.json', read('examples/slam/survey.json')] }],
  learn: [{}, { document: ['closed.json', read('examples/night-creep/closed.json')] }],
}

const ask = (engine, verb, [question, documents]) => engine.ask({ verb, form: 'json', ...question }, documents)

test('every question that there is is tried here', () => {
  const list = /#define QLL_VERB_LIST\(X\)[^]*?\n\n/.exec(read('include/quell/quell.h').toString())[0]
  const verbs = [...list.matchAll(/X\([A-Z]+, "([a-z]+)"\)/g)].map(([, verb]) => verb)
  assert.deepEqual([...Object.keys(asked), ...Object.keys(left_out)].sort(), verbs.sort())
})

for (const name of ['engine_page', 'engine_alone']) {
  test(`${name} answers as the whole engine does, and refuses what was left out of it`, async () => {
    const whole = await Engine.open(modules.engine)
    const part = await Engine.open(modules[name])
    for (const [verb, question] of Object.entries(left_out)) {
      assert.equal(ask(whole, verb, question).status, 'ok', `${verb} of the whole engine`)
      const { status, answer } = ask(part, verb, question)
      assert.deepEqual([status, answer.length], ['wrong-use', 0], verb)
    }
    for (const [verb, question] of Object.entries(asked)) {
      const wanted = ask(whole, verb, question)
      const got = ask(part, verb, question)
      assert.equal(wanted.status, 'ok', verb)
      assert.equal(got.status, 'ok', verb)
      assert.ok(Buffer.from(got.answer).equals(Buffer.from(wanted.answer)), verb)
    }
  })
}

test('only the engine of the page that has a server knows records', () => {
  const knows = (name) => WebAssembly.Module.exports(modules[name]).some((one) => one.name === 'quell_tell')
  assert.deepEqual(Object.keys(modules).filter(knows), ['engine', 'engine_page'])
})
