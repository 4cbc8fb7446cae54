// Help in its place: how a page is used, and its words with their meaning a step away.
import { type HelpKey, helpTexts } from '../help-texts.ts'
import { type Word, wordAddress } from '../settings/glossary.ts'

export const Help = ({ on }: { on: HelpKey }) => {
  const { says, words } = helpTexts[on]
  return (
    <details class="help no-print">
      <summary>How to use this page</summary>
      {says.map((sentence) => (
        <p>{sentence}</p>
      ))}
      <p>
        Words:{' '}
        {words.map((word, index) => (
          <>
            {index > 0 ? ', ' : ''}
            <WordLink word={word}>{word}</WordLink>
          </>
        ))}
        .
      </p>
    </details>
  )
}

/** A word of the glossary, leading to what it means. */
const WordLink = ({ word, children }: { word: Word; children: string }) => (
  <a class="word" href={wordAddress(word)}>
    {children}
  </a>
)
