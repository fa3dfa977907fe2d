// The engine as it runs in browsers: against the same door as a program with the same C library (byte for byte), against the
// command line (words and decisions the same, figures to 1e-9 or 1e-12 absolute), short of memory, with hostile documents, asked
// ten thousand times.
//
//     node --test engine.test.mjs    with ENGINE, TWIN, QUELL and ROOT in the environment; TWIN may be missing
import assert from 'node:assert/strict'
import { spawn, spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { test } from 'node:test'
import zlib from 'node:zlib'

import { Engine, STATUS } from '../../web/engine/engine.mjs'

const { ENGINE, TWIN, QUELL, ROOT } = process.env
const wasm = fs.readFileSync(ENGINE)
const compiled = await WebAssembly.compile(wasm)
const open = (options) => Engine.open(compiled, options)
const bytes_of = (value) => (typeof value === 'string' ? Buffer.from(value) : Buffer.from(value))
const read = (file) => fs.readFileSync(path.join(ROOT, file))

// ---- the twin ----

/** The same question put to the program: what engine.mjs would hand in, in the same order. */
class Twin {
  #process = spawn(TWIN, [], { stdio: ['pipe', 'pipe', 'inherit'] })
  #got = Buffer.alloc(0)
  #wake = () => {}

  constructor() {
    this.#process.stdout.on('data', (data) => {
      this.#got = Buffer.concat([this.#got, data])
      this.#wake()
    })
  }

  async #take(size) {
    while (this.#got.length < size) await new Promise((wake) => (this.#wake = wake))
    const taken = this.#got.subarray(0, size)
    this.#got = this.#got.subarray(size)
    return taken
  }

  async #line() {
    while (!this.#got.includes(10)) await new Promise((wake) => (this.#wake = wake))
    return (await this.#take(this.#got.indexOf(10) + 1)).toString().trim()
  }

  async ask(question, documents = {}) {
    const whole = { ...question }
    const inputs = []
    const file = ([name, value]) => ({ name, input: inputs.push(bytes_of(value)) - 1 })
    for (const key of ['document', 'catalogue', 'likelihood', 'log']) if (documents[key]) whole[key] = file(documents[key])
    if (documents.attachments) whole.attachments = documents.attachments.map(file)
    for (const key of ['recording', 'quiet']) {
      if (!documents[key]) continue
      const [name, samples, rate_hz, channels] = documents[key]
      whole[key] = { ...file([name, Buffer.from(samples.buffer)]), rate_hz, channels }
    }
    inputs.push(Buffer.from(JSON.stringify(whole)))
    this.#process.stdin.write(Buffer.concat([Buffer.from(inputs.map((one) => one.length).join(' ') + '\n'), ...inputs]))
    const [status, size, problems] = (await this.#line()).split(' ').map(Number)
    return { status: STATUS[status], answer: await this.#take(size), problems: (await this.#take(problems)).toString() }
  }

  close() {
    this.#process.stdin.end()
  }
}

// ---- questions ----

const EXAMPLES = fs.readdirSync(path.join(ROOT, 'examples')).filter((name) => fs.existsSync(path.join(ROOT, 'examples', name, 'survey.json')))

function documents_of(folder, file) {
  const document = [file, read(path.join(folder, file))]
  const logs = fs.readdirSync(path.join(ROOT, folder)).filter((name) => name.endsWith('.csv'))
  return { document, attachments: logs.map((name) => [name, read(path.join(folder, name))]) }
}

function* questions() {
  for (const name of EXAMPLES) {
    const documents = documents_of(`examples/${name}`, 'survey.json')
    yield [`${name} demand`, { verb: 'demand', form: 'json' }, documents]
    yield [`${name} check`, { verb: 'check', form: 'json', language: 'es', figures: 'all' }, documents]
    yield [`${name} check, text`, { verb: 'check', form: 'text', units: 'si' }, documents]
  }
  for (const name of ['house', 'first-answer', 'morning-rush', 'metered']) {
    const documents = documents_of(`examples/${name}`, 'survey.json')
    yield [`${name} design`, { verb: 'design', form: 'json', language: 'es' }, documents]
    yield [`${name} design, text`, { verb: 'design', form: 'text', parts: 'verdicts' }, documents]
  }
  const house = documents_of('examples/house', 'survey.json')
  yield ['house report', { verb: 'report', form: 'html' }, house]
  yield ['house figure', { verb: 'report', form: 'svg', plot: 'falloff' }, house]
  yield ['described', { verb: 'describe', form: 'json', language: 'es' }, {}]
  yield ['schema', { verb: 'describe', form: 'schema', about: 'case' }, {}]
  yield ['catalogue', { verb: 'list', form: 'json' }, { catalogue: ['valves.json', read('examples/own-catalogue/valves.json')] }]
  yield ['import', { verb: 'import', form: 'json' }, { document: ['valves.csv', read('examples/own-catalogue/valves.csv')] }]
  yield ['fit', { verb: 'fit', form: 'json' }, { document: ['capacity.csv', read('examples/own-catalogue/capacity.csv')] }]
  yield ['calc', { verb: 'calc', form: 'json', calc: 'friction', arguments: ['flow=12 gpm', 'pipe=copper L', 'nominal=1 in', 'length=60 ft'] }, {}]
  for (const event of ['closure', 'demand', 'heater', 'creep']) {
    yield [`slam simulate ${event}`, { verb: 'simulate', form: 'json', event }, documents_of('examples/slam', 'survey.json')]
  }
  yield ['slam check, moving', { verb: 'check', form: 'text', parts: 'all,motion' }, documents_of('examples/slam', 'survey.json')]
  yield ['diagnose', { verb: 'diagnose', form: 'json' }, documents_of('examples/night-creep', 'case.json')]
  yield ['log', { verb: 'log', form: 'json', parts: 'sheets' }, { log: ['night-rise.csv', read('examples/pressure-log/night-rise.csv')] }]
  const hum = Float32Array.from({ length: 8000 * 12 }, (_, i) => 0.2 * Math.fround(Math.sin(i * 0.7)) + 0.02 * ((i * 7919) % 13))
  yield ['listen', { verb: 'listen', form: 'json', parts: 'all,sheets' }, { recording: ['hum', hum, 8000, 1] }]
}

/** Documents of tests/refused with the verb that is asked of each. */
function* refused() {
  const plain = { survey: 'demand', demand: 'demand', check: 'check', diagnose: 'diagnose', document: 'demand', import: 'import' }
  for (const folder of ['survey', 'engine', 'case', 'document', 'import']) {
    for (const expect of fs.readdirSync(path.join(ROOT, 'tests/refused', folder)).filter((name) => name.endsWith('.expect'))) {
      const verb = plain[fs.readFileSync(path.join(ROOT, 'tests/refused', folder, expect), 'utf8').split('\n')[0]]
      const stem = expect.slice(0, -'.expect'.length)
      const source = [`${stem}.json`, `${stem}.csv`].find((name) => fs.existsSync(path.join(ROOT, 'tests/refused', folder, name)))
      if (!verb || !source) continue
      const log = `${stem}.log.csv`
      const documents = { document: [source, read(`tests/refused/${folder}/${source}`)] }
      if (fs.existsSync(path.join(ROOT, 'tests/refused', folder, log))) documents.attachments = [[log, read(`tests/refused/${folder}/${log}`)]]
      yield [`${folder}/${stem}`, { verb, form: 'json' }, documents]
    }
  }
}

// ---- the same bytes as the twin ----

test('byte for byte as the same door as a program', { skip: !TWIN && 'there is no twin (musl-tools)' }, async () => {
  const engine = await open()
  const twin = new Twin()
  let count = 0
  try {
    for (const [name, question, documents] of [...questions(), ...refused()]) {
      const got = engine.ask(question, documents)
      const want = await twin.ask(question, documents)
      assert.equal(got.status, want.status, name)
      assert.equal(got.problems, want.problems, name)
      assert.ok(Buffer.from(got.answer).equals(want.answer), `${name}: other bytes`)
      count += 1
    }
  } finally {
    twin.close()
  }
  console.log(`# ${count} questions, the same bytes`)
})

// ---- against the command line ----

let numbers = 0
let worst = 0

function same(got, want, where) {
  if (typeof want === 'number' && typeof got === 'number') {
    const off = Math.abs(got - want)
    numbers += 1
    if (off > 1e-12) worst = Math.max(worst, off / Math.abs(want))
    assert.ok(off <= 1e-12 || off <= 1e-9 * Math.abs(want), `${where}: ${got} against ${want}`)
  } else if (want !== null && typeof want === 'object') {
    assert.deepEqual(Object.keys(got), Object.keys(want), where)
    for (const key of Object.keys(want)) same(got[key], want[key], `${where}.${key}`)
  } else {
    assert.equal(got, want, where)
  }
}

test('words and decisions as the command line, figures to 1e-9', async () => {
  const engine = await open()
  for (const [name, question, documents] of questions()) {
    if (!['demand', 'check', 'design'].includes(question.verb) || question.figures) continue
    const options = ['language', 'units', 'parts'].flatMap((key) => (question[key] ? [`--${key}`, question[key]] : []))
    if (question.form === 'json') options.push('--json')
    const cwd = path.join(ROOT, 'examples', name.split(' ')[0])
    const { stdout } = spawnSync(QUELL, [question.verb, 'survey.json', ...options], { cwd, maxBuffer: 2 ** 26 })
    const { answer } = engine.ask(question, documents)
    if (question.form === 'json') same(JSON.parse(Buffer.from(answer)), JSON.parse(stdout), name)
    else assert.equal(Buffer.from(answer).toString(), stdout.toString(), name)
  }
  console.log(`# ${numbers} figures, the worst ${worst.toExponential(1)} off`)
})

// ---- short of memory ----

test('out of memory is an answer, and the engine goes on', async () => {
  const documents = documents_of('examples/house', 'survey.json')
  for (const ceiling of [1, 2 ** 12, 2 ** 16, 2 ** 18, 2 ** 20, 2 ** 21]) {
    const engine = await open({ ceiling })
    for (const verb of ['design', 'check', 'demand']) {
      const { status, answer } = engine.ask({ verb, form: 'json' }, documents)
      assert.ok(['no-memory', 'ok', 'refused'].includes(status), `${ceiling} ${verb}: ${status}`)
      assert.ok(status !== 'no-memory' || answer.length === 0)
    }
    if (ceiling <= 2 ** 16) assert.equal(engine.ask({ verb: 'design' }, documents).status, 'no-memory')
    const small = engine.ask({ verb: 'calc', form: 'text', calc: 'velocity', arguments: ['flow=12 gpm', 'bore=1 in'] })
    assert.equal(small.status, ceiling < 2 ** 18 ? small.status : 'ok')
  }
})

// ---- hostile documents ----

test('hostile documents are refused, and the engine goes on', async () => {
  const engine = await open()
  const hostile = {
    'deep lists': '['.repeat(200000),
    'deep objects': '{"a":'.repeat(100000),
    'many values': '[' + '1,'.repeat(1100000) + '1]',
    'a zero byte': Buffer.from([123, 0, 125]),
    'no UTF-8': Buffer.from([34, 0xc3, 0x28, 34]),
    nothing: '',
    '17 MB': Buffer.alloc(17 * 2 ** 20, 32),
    'long text': JSON.stringify({ survey: 1, name: 'x'.repeat(2 ** 20), supply: {}, scenarios: [] }),
    'large number': '{"survey": 1e999}',
  }
  for (const [name, document] of Object.entries(hostile)) {
    for (const verb of ['design', 'diagnose', 'import']) {
      const { status, problems } = engine.ask({ verb, form: 'json' }, { document: ['d', document] })
      assert.equal(status, 'refused', `${name}: ${verb}`)
      assert.notEqual(problems, '')
    }
  }
  for (const question of [{}, { verb: 'no such verb' }, { verb: 'design', document: 3 }, { verb: 'design', document: { name: 'd', input: 99 } },
    { verb: 'check', attachments: [7] }, { verb: 'calc', arguments: [{}] }, { verb: 'listen', recording: { input: 99 } }]) {
    assert.equal(engine.ask(question).status, 'wrong-use', JSON.stringify(question))
  }
  assert.equal(engine.ask({ verb: 'list', form: 'json' }).status, 'ok')
})

// ---- progress, stop, slices, what is kept ----

test('progress never falls, and a stop is heard', async () => {
  const engine = await open()
  const documents = documents_of('examples/morning-rush', 'survey.json')
  const told = []
  assert.equal(engine.ask({ verb: 'design', form: 'json' }, documents, { progress: (share) => told.push(share) }).status, 'ok')
  assert.ok(told.length > 5 && told.every((share, i) => i === 0 || share >= told[i - 1]) && told.at(-1) === 1)
  assert.equal(engine.ask({ verb: 'design', form: 'json' }, documents, { progress: () => false }).status, 'stopped')
})

test('a file is read in slices as it is read whole', async () => {
  const engine = await open()
  const { document, attachments } = documents_of('examples/metered', 'survey.json')
  const [name, bytes] = attachments[0]
  const sliced = {
    size: bytes.length,
    read: (at, to) => {
      const part = bytes.subarray(at, at + Math.min(to.length, 777))
      to.set(part)
      return part.length
    },
  }
  const whole = engine.ask({ verb: 'demand', form: 'json' }, { document, attachments })
  const parts = engine.ask({ verb: 'demand', form: 'json' }, { document, attachments: [[name, sliced]] })
  assert.equal(parts.status, 'ok')
  assert.deepEqual(parts.answer, whole.answer)
  const broken = { size: bytes.length, read: () => -1 }
  assert.equal(engine.ask({ verb: 'demand', form: 'json' }, { document, attachments: [[name, broken]] }).status, 'io')
})

test('what is kept answers with the same bytes', async () => {
  const kept = await open({ kept: 64 * 2 ** 20 })
  const fresh = await open()
  const { document, attachments } = documents_of('examples/hillside', 'survey.json')
  for (const set of ['58 psi', '57 psi', '61 psi', '58 psi']) {
    const edited = ['survey.json', document[1].toString().replace('"set_pressure": "58 psi"', `"set_pressure": "${set}"`)]
    const question = { verb: 'check', form: 'json' }
    assert.deepEqual(kept.ask(question, { document: edited, attachments }), fresh.ask(question, { document: edited, attachments }))
  }
})

test('ten thousand questions do not make it grow', async () => {
  const engine = await open({ kept: 16 * 2 ** 20 })
  const house = read('examples/first-answer/survey.json').toString()
  const ask = (i) => {
    const question = i % 50 === 0 ? { verb: 'demand', form: 'json' } : { verb: 'calc', form: 'json', calc: 'velocity', arguments: [`flow=${1 + (i % 97)} gpm`, 'bore=1 in'] }
    const documents = i % 50 === 0 ? { document: ['survey.json', house.replace(/"people": \d+/, `"people": ${1 + (i % 31)}`)] } : {}
    const { status } = engine.ask(question, documents)
    assert.equal(status, 'ok')
  }
  for (let i = 0; i < 2500; i++) ask(i)
  const before = engine.memory_size
  for (let i = 2500; i < 10000; i++) ask(i)
  assert.equal(engine.memory_size, before)
  console.log(`# ${(before / 2 ** 20).toFixed(1)} MiB`)
})

test('the module asks for nothing but what it is given', () => {
  const imports = WebAssembly.Module.imports(compiled).map(({ module, name }) => `${module}.${name}`).sort()
  assert.deepEqual(imports, ['quell.progress', 'quell.read_file', 'wasi_snapshot_preview1.fd_close', 'wasi_snapshot_preview1.fd_seek', 'wasi_snapshot_preview1.fd_write'])
  const size = (packed) => `${Math.round(packed.length / 1000)} kB`
  console.log(`# ${size(wasm)}, gzip ${size(zlib.gzipSync(wasm, { level: 9 }))}, brotli ${size(zlib.brotliCompressSync(wasm))}`)
})
