// How much longer work takes, by what is done of it: for pages that wait and for the terminal.

/** Seconds, from those gone and what is done; null while that says nothing yet. */
export const secondsLeft = (gone: number, { done, of }: { done: number; of: number }): number | null =>
  gone < 1 || done < of / 50 ? null : (gone * (of - done)) / done

export const sayTimeLeft = (seconds: number): string =>
  seconds < 90
    ? `About ${Math.max(1, Math.round(seconds))} ${Math.round(seconds) <= 1 ? 'second' : 'seconds'} left.`
    : `About ${Math.round(seconds / 60)} minutes left.`
