// The copy of the day by a process of its own: proving large books takes seconds, and no page should wait for them.
import { setPriority } from 'node:os'
import { text } from 'node:stream/consumers'

const politeness = 10

/** It may be over already, and a system may refuse: then it only takes more of the processor than it should. */
const goAfterOthers = (pid: number): void => {
  try {
    setPriority(pid, politeness)
  } catch {}
}

/** Why there is no copy, in words, or null. The command is the same as `dooryard backup --daily`. */
export const copyApart = async (booksPath: string): Promise<string | null> => {
  // Asked for then: a start stays quick.
  const { spawn } = await import('node:child_process')
  const start = process.argv[1]!
  const child = spawn(process.execPath, [start, 'backup', '--daily', '--data', booksPath], {
    stdio: ['ignore', 'ignore', 'pipe'],
  })
  child.unref()
  if (child.pid !== undefined) goAfterOthers(child.pid)
  const ended = new Promise<number | null>((resolve, reject) => {
    child.once('error', reject)
    child.once('exit', resolve)
  })
  const [code, said] = await Promise.all([ended, text(child.stderr)])
  if (code === 0) return null
  return said.trim().replace(/^dooryard backup: /, '') || 'The process that makes it was ended.'
}
