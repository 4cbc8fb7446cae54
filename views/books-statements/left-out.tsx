// The lines of a file that are no transactions, each with why it was left out, and those that were read with something to say.
interface Remark {
  fileLine: number
  message: string
  isRead?: true
}

const mostShown = 100

export const LeftOutList = ({ remarks }: { remarks: readonly Remark[] }) => (
  <ul>
    {remarks.slice(0, mostShown).map(({ fileLine, message }) => (
      <li>
        Line {fileLine}: {message}
      </li>
    ))}
    {remarks.length > mostShown ? <li>and {remarks.length - mostShown} more</li> : null}
  </ul>
)

/** `2 lines left out`, `2 lines left out, 1 read with a remark`. */
export const remarksCounted = (remarks: readonly Remark[]): string => {
  const read = remarks.filter(({ isRead }) => isRead).length
  const left = remarks.length - read
  const lines = (count: number) => `${count} ${count === 1 ? 'line' : 'lines'}`
  const parts = [
    ...(left > 0 ? [`${lines(left)} left out`] : []),
    ...(read > 0 ? [`${lines(read)} read with a remark`] : []),
  ]
  return parts.join(', ')
}
