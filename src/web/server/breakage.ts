// What the log is told of something that broke, and whether it is the disk that said no.
import { type FileProblem, fileProblem } from '#db/file-problem.ts'

/** Where it broke, without the message: that may hold an amount or a name. */
export const breakageOf = (error: unknown): { error: string; at: string[] } =>
  error instanceof Error ? { error: error.name, at: placesOf(error) } : { error: typeof error, at: [] }

/** A full disk, a folder that may not be written, a damaged file: the person is told what to do. */
export const diskProblem = (error: unknown): FileProblem | null => {
  const problem = fileProblem(error, 'The books file')
  return problem?.kind === 'missing' ? null : problem
}

const placesOf = (error: Error): string[] =>
  (error.stack ?? '')
    .split('\n')
    .filter((line) => /^\s+at /.test(line))
    .map((line) => line.trim())
    .slice(0, 12)
