// The engine as a module for browsers and Node: one instance answers one question at a time.
//
//     const engine = await Engine.open(moduleBytes)
//     const { status, answer, problems } = engine.ask({ verb: 'design', form: 'json' }, { document: ['survey.json', bytes] })
//
// docs/formats/engine.md says what a question may hold.

const text = new TextDecoder()
const bytes_of = (value) => (typeof value === 'string' ? new TextEncoder().encode(value) : value)

/** What qll_status means, by its number. */
export const STATUS = ['ok', 'refused', 'no-memory', 'busy', 'io', 'wrong-use', 'stopped']

export class Engine {
  #exports
  #progress = () => true
  #read = () => -1

  /**
   * @param module bytes of engine.wasm, or a compiled module
   * @param ceiling most bytes a question may take
   * @param kept most bytes kept between questions; 0 = each is answered afresh
   */
  static async open(module, { ceiling = 256 * 2 ** 20, kept = 0 } = {}) {
    const engine = new Engine()
    const made = module instanceof WebAssembly.Module ? module : await WebAssembly.compile(module)
    // There is no file system: whatever is asked of it is a bad descriptor, 8.
    const nothing = new Proxy({}, { get: () => () => 8 })
    const instance = await WebAssembly.instantiate(made, {
      wasi_snapshot_preview1: nothing,
      quell: {
        progress: (share) => (engine.#progress(share) ? 1 : 0),
        read_file: (file, at, to, size) => engine.#read(file, at, new Uint8Array(engine.#exports.memory.buffer, to, size)),
      },
    })
    engine.#exports = instance.exports
    instance.exports._initialize?.()
    if (!instance.exports.quell_open(ceiling, kept)) throw new Error('no memory')
    return engine
  }

  get version() {
    const memory = new Uint8Array(this.#exports.memory.buffer)
    const at = this.#exports.quell_version()
    return text.decode(memory.subarray(at, memory.indexOf(0, at)))
  }

  /** Bytes of linear memory. */
  get memory_size() {
    return this.#exports.memory.buffer.byteLength
  }

  #hand_in(bytes) {
    const at = this.#exports.quell_hand_in(bytes.length)
    if (at === 0) return false
    new Uint8Array(this.#exports.memory.buffer, at, bytes.length).set(bytes)
    return true
  }

  #taken(at, size) {
    return new Uint8Array(this.#exports.memory.buffer, at, size).slice()
  }

  /**
   * Asks @p question. `documents` has [name, text or bytes] under `document`, `catalogue`, `likelihood`; under `attachments` and
   * `log` the same, or [name, { size, read(at, bytes) }] to be read in slices; under `recording` and `quiet`
   * [name, Float32Array, rate_hz, channels].
   *
   * @return status, the answer's bytes, and the problems as text
   */
  ask(question, documents = {}, { progress } = {}) {
    const { quell_begin, quell_ask, quell_answer, quell_answer_size, quell_problems, quell_problems_size } = this.#exports
    const whole = { ...question }
    const files = []
    let count = 0
    this.#progress = progress ?? (() => true)
    this.#read = (file, at, bytes) => files[file]?.read(at, bytes) ?? -1
    const none = { status: 'no-memory', answer: new Uint8Array(), problems: '' }
    if (!quell_begin()) return none
    const hand_in = (bytes) => (this.#hand_in(bytes) ? count++ : -1)
    const file = ([name, value]) =>
      typeof value?.read === 'function' ? { name, file: files.push(value) - 1, size: value.size } : { name, input: hand_in(bytes_of(value)) }
    for (const key of ['document', 'catalogue', 'likelihood', 'log']) if (documents[key]) whole[key] = file(documents[key])
    if (documents.attachments) whole.attachments = documents.attachments.map(file)
    for (const key of ['recording', 'quiet']) {
      if (!documents[key]) continue
      const [name, samples, rate_hz, channels] = documents[key]
      const bytes = new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength)
      whole[key] = { name, input: hand_in(bytes), rate_hz, channels }
    }
    const asked = hand_in(bytes_of(JSON.stringify(whole)))
    const given = [whole.document, whole.catalogue, whole.likelihood, whole.log, whole.recording, whole.quiet, ...(whole.attachments ?? [])]
    if (asked < 0 || given.some((one) => one?.input === -1)) return none
    const status = STATUS[quell_ask(asked)]
    return {
      status,
      answer: this.#taken(quell_answer(), quell_answer_size()),
      problems: text.decode(this.#taken(quell_problems(), quell_problems_size())),
    }
  }

  /**
   * What is asked about records (records_door.c): @p question and the texts that it is about, in their order.
   *
   * @return status and the answer's bytes
   */
  tell(question, documents = []) {
    const { quell_begin, quell_tell, quell_answer, quell_answer_size } = this.#exports
    const none = { status: 'no-memory', answer: new Uint8Array() }
    const texts = [...documents, JSON.stringify(question)]
    if (!quell_begin() || !texts.every((one) => this.#hand_in(bytes_of(one)))) return none
    const status = STATUS[quell_tell(documents.length)]
    return { status, answer: this.#taken(quell_answer(), quell_answer_size()) }
  }

  /** Forgets what was kept: a file behind an attachment has changed. */
  forget() {
    this.#exports.quell_forget()
  }
}
