// A question at a field that a person can answer with yes: it is asked once, and taken when the box below the field is checked.
/** The end of each such question. */
const sureWords = 'If that is right, check the box'

export const askSure = (what: string): string => `${what} ${sureWords}`

/** The list of questions that were said yes to, each by its own words: a yes is for these amounts and days alone. */
export const sure = 'sure[]'

export const AskedBox = ({ id, error, yes }: { id: string; error: string | undefined; yes: string }) =>
  error?.endsWith(sureWords) ? (
    <div class="choice">
      <input type="checkbox" id={`${id}-sure`} name={sure} value={error} />
      <label for={`${id}-sure`}>{yes}</label>
    </div>
  ) : null
