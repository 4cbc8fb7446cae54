// The lines of a file that are no transactions, each with why it was left out.
interface Remark {
  fileLine: number
  message: string
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
