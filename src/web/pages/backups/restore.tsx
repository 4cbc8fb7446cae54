// Restoring from the page: a copy is looked at first, and put in place only on a second word, with the books let go of for that moment.
import { statSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { listBackups } from '#db/backup/backup.ts'
import { restoreWords } from '#db/backup/comparison-words.ts'
import { type PreparedRestore, prepareRestore } from '#db/backup/restore.ts'
import { latestChangeId } from '#db/change-log.ts'
import { placeBeside } from '#db/data-place.ts'
import { forgetHalf, halfOf } from '#db/half.ts'
import { RestorePage } from '#views/backups/restore.tsx'
import { answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { type FormErrors, newFormId, readForm, type TypedForm } from '#web/forms/form.ts'

/** One at a time: it lies beside the books until it is put in place, or another one is looked at. */
interface Looked {
  key: string
  name: string
  prepared: PreparedRestore
  /** The newest change of the books when it was looked at. */
  asOf: number
}

export interface RestoreDesk {
  look(c: PageContext): Promise<Response>
  carryOut(c: PageContext): Promise<Response>
}

export const restoreDesk = (
  showAgain: (c: PageContext, errors: FormErrors) => Response | Promise<Response>,
): RestoreDesk => {
  let looked: Looked | null = null
  const forget = () => {
    looked?.prepared.forget()
    looked = null
  }
  const show = (c: PageContext, { key, name, prepared }: Looked, isLate: boolean) => {
    const says = restoreWords(prepared, basename(c.var.web.books.path), c.var.web.timeName)
    return answer(c, {
      title: 'Restore',
      figures: { name, says },
      page: () => <RestorePage name={name} says={says} isLate={isLate} lookKey={key} formId={newFormId()} />,
    })
  }
  return {
    async look(c) {
      const typed = await readForm(c)
      forget()
      const from = await chosen(c, typed)
      if (!('path' in from)) return showAgain(c, from)
      const { books, clock } = c.var.web
      const passphrase = typed.value('openWith').trim()
      const result = prepareRestore(from.path, {
        ...placeBeside(books.path),
        file: books.path,
        now: clock.now(),
        ...(passphrase === '' ? {} : { passphrase }),
      })
      if (from.isSent) forgetHalf(from.path)
      if (!result.ok)
        return showAgain(c, { [from.field]: result.problem.message.replaceAll(from.path, from.name) })
      const { prepared } = result
      looked = { key: newFormId(), name: from.name, prepared, asOf: latestChangeId(books) }
      return show(c, looked, false)
    },
    async carryOut(c) {
      const typed = await readForm(c)
      const { exchange, upkeep, books } = c.var.web
      if (!exchange || looked?.key !== typed.value('key'))
        return notFound(c, 'This copy is looked at no longer. Choose it again under Backups.')
      // What came into the books since was not looked at: it would go unseen.
      const asOf = latestChangeId(books)
      if (asOf !== looked.asOf) {
        looked = { ...looked, asOf }
        return show(c, looked, true)
      }
      const { name, prepared } = looked
      const done = exchange(() => prepared.carryOut())
      upkeep.restoreSaid = !done.ok
        ? done.problem.message
        : `Restored from ${name}.${done.keptBefore ? ` Your previous books are kept as ${basename(done.keptBefore)}.` : ''}`
      if (done.ok) looked = null
      // Nothing of this request is asked any more: its books are of the past.
      return new Response(null, { status: 303, headers: { Location: '/settings/backups' } })
    },
  }
}

type Chosen = { path: string; name: string; field: string; isSent: boolean }

const chosen = async (c: PageContext, typed: TypedForm): Promise<Chosen | FormErrors> => {
  const { folder, backups } = placeBeside(c.var.web.books.path)
  const kept = listBackups(backups).find((one) => one.name === typed.value('kept'))
  if (kept) return { path: kept.path, name: kept.name, field: 'kept', isSent: false }
  const sent = typed.file('file')
  if (!sent) return { file: 'Choose a copy: one of those kept, or a file of yours' }
  const path = halfOf(join(folder, `sent-${newFormId()}`))
  writeFileSync(path, Buffer.from(await sent.arrayBuffer()), { mode: 0o600, flush: true })
  if (statSync(path).size > 0)
    return {
      path,
      name: sent.name.replaceAll(/[^\p{L}\p{N} ._-]/gu, '').slice(0, 120),
      field: 'file',
      isSent: true,
    }
  forgetHalf(path)
  return { file: 'This file is empty. Choose another' }
}
