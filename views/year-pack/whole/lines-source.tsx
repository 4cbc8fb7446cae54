// Where the lines of a form are from. A preparer's paper cites the form; which of its lines nobody read in it is told on the screen.
interface LinesSourceProps {
  source: string
  /** As a sentence: the lines that are from memory. */
  unread: string
}

export const LinesSource = ({ source, unread }: LinesSourceProps) => (
  <>
    Source: {source}. <span class="no-print">{unread} </span>Check each line against this year’s form.
  </>
)
