// How much work a piece of the house does, counted in calls of its functions: the same on any machine, whatever else it has to do.
import { Session } from 'node:inspector'

interface Covered {
  result: readonly { url: string; functions: readonly { ranges: readonly { count: number }[] }[] }[]
}

/** Calls of functions of `src` and `views` while `work` runs. */
export const callsOf = async (work: () => unknown): Promise<number> => {
  const session = new Session()
  session.connect()
  const asked = (method: string, params = {}): Promise<unknown> =>
    new Promise((resolve, reject) =>
      session.post(method, params, (error, answer) => (error ? reject(error) : resolve(answer))),
    )
  try {
    await asked('Profiler.enable')
    await asked('Profiler.startPreciseCoverage', { callCount: true, detailed: false })
    await work()
    const { result } = (await asked('Profiler.takePreciseCoverage')) as Covered
    return result
      .filter(({ url }) => /\/(src|views)\//.test(url))
      .flatMap(({ functions }) => functions.map(({ ranges }) => ranges[0]!.count))
      .reduce((sum, count) => sum + count, 0)
  } finally {
    await asked('Profiler.stopPreciseCoverage')
    session.disconnect()
  }
}
