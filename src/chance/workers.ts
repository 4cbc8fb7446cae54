// Worker threads of which one that cannot start ends neither the server nor what waits for it: who asked is told, and the next one asks anew.
import type { Piscina } from 'piscina'

/** Loaded when first asked for: a server starts without it. */
const library = async () => (await import('piscina')).Piscina

export type WorkerOptions = ConstructorParameters<typeof Piscina>[0] & { filename: string }

/**
 * V8 gives each thread 48 MB for what is new before it looks for what is left of it, whatever its work. Of what workers make little
 * lives on: with less they are as fast, and each takes some 25 MB less.
 */
const maxYoungGenerationSizeMb = 8

export class Workers {
  readonly #options: WorkerOptions
  #pool: Piscina | undefined

  constructor(options: WorkerOptions) {
    this.#options = options
  }

  /** Starts those that are kept ready, so that they are when asked. */
  async ready(): Promise<void> {
    try {
      this.#started(await library())
    } catch {
      // The first who asks is told, or finds that by then they start.
    }
  }

  async run<Answer>(task: unknown, name?: string): Promise<Answer> {
    const pool = this.#started(await library())
    try {
      return (await pool.run(task, name === undefined ? {} : { name })) as Answer
    } catch (error) {
      if (pool.threads.length === 0) this.#letGo(pool)
      throw error
    }
  }

  async close(): Promise<void> {
    await this.#pool?.destroy()
    this.#pool = undefined
  }

  #started(Pool: typeof Piscina): Piscina {
    if (this.#pool) return this.#pool
    const pool = new Pool({
      recordTiming: false,
      resourceLimits: { maxYoungGenerationSizeMb },
      ...this.#options,
    })
    pool.on('error', () => this.#letGo(pool))
    // One that ends without an error makes no event but this one.
    pool.on('workerDestroy', () =>
      setImmediate(() => {
        if (pool.threads.length === 0 && (pool.queueSize > 0 || pool.options.minThreads > 0))
          this.#letGo(pool)
      }),
    )
    this.#pool = pool
    return pool
  }

  /** Piscina starts no more workers after one that failed at its start: what waits would wait for ever. */
  #letGo(pool: Piscina): void {
    if (this.#pool === pool) this.#pool = undefined
    void pool.destroy()
  }
}
