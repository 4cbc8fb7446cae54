// One line at a terminal that says how far long work is, written over itself and gone when the work ends.
import { sayTimeLeft, secondsLeft } from '#kept/time-left.ts'
import type { CommandIo } from './command.ts'

export interface ProgressLine {
  onProgress: (done: number, of: number) => void
  /** Takes the line away. */
  end(): void
}

/** Silent where no person watches: what is read by a program is the answer alone. */
export function progressLine({ overwrite, now }: CommandIo, doing: string): ProgressLine {
  if (overwrite === undefined) return { onProgress: () => {}, end: () => {} }
  const begun = now().getTime()
  let shown = ''
  const show = (text: string) => {
    if (text !== shown) overwrite(text)
    shown = text
  }
  return {
    onProgress: (done, of) => {
      const left = secondsLeft((now().getTime() - begun) / 1_000, { done, of })
      show(`${doing} ${Math.floor((100 * done) / of)}% done.${left === null ? '' : ` ${sayTimeLeft(left)}`}`)
    },
    end: () => show(''),
  }
}
