// What two workers of this machine can gain at most: the same bare loop run whole by one worker and by halves in two.
import { once } from 'node:events'
import { Worker } from 'node:worker_threads'

const rounds = 150_000_000

const loop = `
const { parentPort } = require('node:worker_threads')
parentPort.on('message', (rounds) => {
  let x = 1.1
  let sum = 0
  for (let round = 0; round < rounds; round += 1) {
    x = x * 1.0000001 + 0.1
    if (x > 1e6) x = 1
    sum += Math.sqrt(x)
  }
  parentPort.postMessage(sum)
})`

export interface BareWorkers {
  /** Milliseconds of the loop in one worker, and of its halves in two at once. */
  time(): Promise<{ one: number; two: number }>
  close(): Promise<void>
}

export async function bareWorkers(): Promise<BareWorkers> {
  const workers = [new Worker(loop, { eval: true }), new Worker(loop, { eval: true })]
  const ask = async (worker: Worker, share: number) => {
    worker.postMessage(rounds * share)
    await once(worker, 'message')
  }
  const timed = async (work: () => Promise<unknown>) => {
    const start = performance.now()
    await work()
    return performance.now() - start
  }
  const both = (share: number) => Promise.all(workers.map((worker) => ask(worker, share)))
  await both(0.1)
  return {
    time: async () => ({ one: await timed(() => ask(workers[0]!, 1)), two: await timed(() => both(0.5)) }),
    close: async () => void (await Promise.all(workers.map((worker) => worker.terminate()))),
  }
}
