// What was changed at other screens since this browser's last page: said once, so that two people see each other's work.
import { changesSince, latestChangeId } from '#db/change-log.ts'
import type { Books } from '#db/open.ts'
import { Lately } from '#kept/lately.ts'

export type Meanwhile = (browser: string) => string | null

const mostBrowsers = 200
const mostSentences = 3

export function meanwhileOf(books: Books): Meanwhile {
  const lastSeen = new Lately<string, number>(mostBrowsers)
  return (browser) => {
    const seen = lastSeen.get(browser)
    const latest = latestChangeId(books)
    lastSeen.set(browser, latest)
    if (seen === undefined || seen === latest) return null
    const changes = changesSince(books, seen, browser)
    if (changes.length === 0) return null
    const sentences = [...new Set(changes.map((change) => change.summary))]
    const more = sentences.length > mostSentences ? ', and more' : ''
    return `Changed on another device: ${sentences.slice(0, mostSentences).join('; ')}${more}.`
  }
}
