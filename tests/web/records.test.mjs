// What a page asks about records without its server: the same answers as the command line's from a store with the same records, in
// every language and unit; a row as the store works it out; records that are refused; hostile documents.
//
//     node --test records.test.mjs    with ENGINE, QUELL and ROOT in the environment
import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { after, test } from 'node:test'

import { Engine } from '../../web/engine/engine.mjs'

const { ENGINE, QUELL, ROOT } = process.env
const compiled = await WebAssembly.compile(fs.readFileSync(ENGINE))
const engine = await Engine.open(compiled)
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'quell-records-'))
after(() => fs.rmSync(folder, { recursive: true }))

const site = (...words) => execFileSync(QUELL, ['site', ...words, '--store', path.join(folder, 'records.db')], { encoding: 'utf8' })
site('import', path.join(ROOT, 'examples/records/firm.json'))
const listed = JSON.parse(site('list', '--json'))
const today = listed.today
const stands = new Map(listed.sites.map((one) => [one.site, JSON.parse(site('show', one.site, '--json')).records.map(({ receipt, ...record }) => record)]))

function tell(question, ...documents) {
  const { status, answer } = engine.tell({ today, ...question }, documents.map((one) => (typeof one === 'string' ? one : JSON.stringify(one))))
  assert.equal(status, 'ok', JSON.stringify(question))
  return Buffer.from(answer).toString()
}

const lines = (records) => records.map((one) => JSON.stringify(one)).join('\n')
const rows = JSON.parse(tell({ tell: 'rows' }, lines([...stands.values()].flat()))).rows.map((row) => ({ ...row, name_key: row.name.toLowerCase() }))

test('rows are those of the store', () => {
  const plain = ({ site, name, every_months, service_day, conflicts }) => ({ site, name, every_months: every_months || null, service_day, conflicts })
  const order = (one, other) => (one.site < other.site ? -1 : 1)
  assert.deepEqual(rows.map(plain).sort(order), listed.sites.map(plain).sort(order))
  assert.ok(rows.some((row) => row.conflicts > 0) && rows.some((row) => row.service_day !== null) && rows.some((row) => row.every_months === 0))
})

test('sites, due days, trends and the calendar are those of the command line', () => {
  const order = listed.sites.map((one) => rows.find((row) => row.site === one.site))
  for (const language of ['en', 'es']) {
    assert.equal(tell({ tell: 'sites', language }, order), site('list', '--json', '--language', language))
    assert.equal(tell({ tell: 'due', language }, rows), site('due', '--json', '--language', language))
    for (const row of rows) {
      for (const units of ['us', 'si']) {
        assert.equal(tell({ tell: 'trend', language, units, form: 'text' }, row, lines(stands.get(row.site))), site('trend', row.site, '--language', language, '--units', units))
        assert.equal(tell({ tell: 'trend', language, units }, row, lines(stands.get(row.site))), site('trend', row.site, '--json', '--language', language, '--units', units))
      }
    }
  }
  for (const [language, units] of [['en', 'us'], ['es', 'si']]) {
    for (const row of rows) {
      const drawn = path.join(folder, 'trend.html')
      site('trend', row.site, '-o', drawn, '--language', language, '--units', units)
      const told = JSON.parse(tell({ tell: 'trend', language, units, sheets: true }, row, lines(stands.get(row.site))))
      assert.equal(told.html, fs.readFileSync(drawn, 'utf8'))
      assert.deepEqual(told.figures.map((one) => one.name), told.trends.filter((one) => one.first_day !== one.last_day).map((one) => `trend-${one.what.replace('_', '-')}`))
    }
  }
  const file = path.join(folder, 'due.ics')
  site('export', '-o', file)
  const events = (text) => text.replace(/DTSTAMP:.*\r\n/g, '').split('BEGIN:VEVENT').sort()
  assert.deepEqual(events(tell({ tell: 'calendar', created: '20261130T120000Z' }, rows)), events(fs.readFileSync(file, 'utf8')))
})

test('a record is refused with the place and the fix', () => {
  const good = [...stands.values()].flat().find((one) => one.kind === 'visit')
  assert.deepEqual(JSON.parse(tell({ tell: 'record' }, good)).problems, [])
  const { status, answer } = engine.tell({ tell: 'record', today, language: 'es' }, [JSON.stringify({ ...good, body: { purpose: 'servise' } })])
  assert.equal(status, 'refused')
  const [problem] = JSON.parse(Buffer.from(answer)).problems
  assert.equal(problem.path, 'body.purpose')
  assert.deepEqual(problem.fix, { op: 'replace', path: 'body.purpose', value: 'service' })
})

test('many sites at once take little', () => {
  const all = [...stands.values()].flat()
  const many = Array.from({ length: 4000 }, (_, at) => ({ ...all[at % all.length], id: all[at % all.length].id.slice(0, -6) + String(at).padStart(6, '0') }))
  assert.ok(JSON.parse(tell({ tell: 'rows' }, lines(many))).rows.length > 300)
})

test('out of memory is an answer, and the engine goes on', async () => {
  const all = lines([...stands.values()].flat())
  const seen = new Set()
  for (let ceiling = 2 ** 10; ceiling <= 2 ** 24; ceiling *= 1.3) {
    const small = await Engine.open(compiled, { ceiling: Math.round(ceiling) })
    const documents = { rows: [all], trend: [JSON.stringify(rows[0]), all], due: [JSON.stringify(rows)], calendar: [JSON.stringify(rows)], record: [all.split('\n')[0]] }
    for (const [word, given] of Object.entries(documents)) {
      const { status, answer } = small.tell({ tell: word, today, created: '20261130T120000Z' }, given)
      assert.ok(status === 'ok' || (status === 'no-memory' && answer.length === 0), `${ceiling} ${word}: ${status}`)
      seen.add(`${word} ${status}`)
    }
  }
  assert.equal(seen.size, 10, [...seen].join())
})

test('what makes no sense is wrong use, and leaves no trace', () => {
  const hostile = ['', '[', '{}', '[1]', '[{"site":3}]', '['.repeat(100000), '[{"record":1}]', 'null', Buffer.from([34, 0xc3, 0x28, 34])]
  for (const document of hostile) {
    for (const word of ['record', 'rows', 'sites', 'due', 'calendar', 'trend', 'no such word']) {
      const { status } = engine.tell({ tell: word, today, created: '20261130T120000Z' }, [document, document])
      assert.ok(['ok', 'refused', 'wrong-use'].includes(status), `${word} ${document}: ${status}`)
    }
  }
  for (const question of [7, [1], {}, { tell: 7 }, { tell: 'due' }, { tell: 'due', today: 'soon' }, { tell: 'due', today, language: 'xx' }, { tell: 'due', today, units: 'xx' }]) {
    assert.equal(engine.tell(question, [JSON.stringify(rows)]).status, 'wrong-use', JSON.stringify(question))
  }
  assert.equal(engine.tell({ tell: 'due', today }, []).status, 'wrong-use')
  const before = engine.memory_size
  for (let i = 0; i < 500; i++) tell({ tell: 'rows' }, lines([...stands.values()].flat()))
  assert.equal(engine.memory_size, before)
})
