// One note of the farm in a line, by the names of the plan in use: the notebook's list of the day and the list of acts say the same.
import { type Day, dayName } from '#calendar/day.ts'
import { withClass } from '#db/notebook/head-class.ts'
import { subjectOf } from '#db/notebook/hours-store.ts'
import type { NoteRow } from '#db/notebook/note-rows.ts'
import type { HerdKind } from '#farm/herd/herd-document.ts'
import { headWords } from '#farm/herd/species-words.ts'
import { goodsSays, hoursText, markSays } from '#farm/notebook/words.ts'
import { sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { NotebookNames } from './notebook-names.ts'

/** `Mara 2 h, Broilers`, `Thursday market, $312.50`. */
export const noteSays = (names: NotebookNames, { kind, row }: NoteRow): string => {
  switch (kind) {
    case 'hours':
      return `${names.ofPerson(row.person)} ${row.minutes === null ? 'by the clock' : `${hoursText(row.minutes)} h`}, ${names.ofSubject(subjectOf(row))}`
    case 'heads': {
      const { herdId, headClass, count, kind: how } = withClass(row)
      return `${names.ofHerd(herdId)}: ${count} ${headWords(headClass, kindsOf(names, herdId), count)} ${how}`
    }
    case 'market': {
      const taken = row.takings.map(({ amountCents }) => amountCents)
      return `${names.ofMarket(row.marketId)}, ${taken.length > 0 ? formatCents(sumCents(taken)) : 'no takings'}`
    }
    case 'trip':
      return row.miles === null
        ? `${row.vehicle}: odometer ${row.odometer}`
        : `${row.vehicle}: ${row.miles} miles`
    case 'goods':
      return goodsSays(row)
    case 'mark':
      return `${names.ofSubject({ kind: 'batch', id: row.batchId })}: ${markSays(row)}`
  }
}

/** The same for a list of many days. */
export const noteSaysWithDay = (names: NotebookNames, note: NoteRow): string =>
  `${noteSays(names, note)}, ${dayName(note.row.day as Day)}`

/** A herd that the plan no longer has is of no kind that is known. */
const kindsOf = ({ herds }: NotebookNames, herdId: string): HerdKind[] =>
  herds.flatMap(({ id, kind }) => (id === herdId ? [kind] : []))
