// Someone saved the same thing after this form was opened, elsewhere or here: both versions are shown, with the way to keep either.
import { nameAt, whoDid } from '#db/acts/names.ts'
import { lastChangeOf } from '#db/change-log.ts'
import { digestOf, wasCarriedOut } from '#db/once.ts'
import { TwoVersionsPage, type TwoVersionsProps } from '#views/parts/two-versions.tsx'
import { browserOf } from '#web/server/browser.ts'
import { type Answered, answer, type PageContext } from './answer.tsx'
import { newFormId, type TypedForm } from './form.ts'
import { typedPairs } from './typed-form.ts'

/** `saved` as the log or the revision has it: by which browser, or from where. */
type TwoVersions = Omit<TwoVersionsProps, 'saved'> & { saved: { at: string; by: string } | null }

export const showTwoVersions = (c: PageContext, both: TwoVersions): Answered => {
  const saved = both.saved
    ? {
        ...both.saved,
        when: c.var.web.timeName(both.saved.at),
        ...savedBy(c, both.saved.by),
      }
    : null
  return answer(c, {
    title: `Two versions of ${both.what}`,
    status: 409,
    asTyped: true,
    figures: { saved, differences: both.rows },
    page: () => <TwoVersionsPage {...both} saved={saved} />,
  })
}

/** In the midst of a sentence: a name as it was given, else what is known of who it was. */
const savedBy = (c: PageContext, actor: string): { by: string; isHere: boolean } => {
  const { books } = c.var.web
  const own = browserOf(c)
  const said = whoDid(books, own)(actor)
  const by = nameAt(books, actor) === '' ? `${said[0]?.toLowerCase() ?? ''}${said.slice(1)}` : said
  return { by, isHere: actor === own }
}

export interface OverTheirs {
  what: string
  /** The form as it was sent, and as it would open now; both carry their version in `basedOn`. */
  typed: TypedForm
  now: TypedForm
  /** What the log calls it. */
  subject: string
  /** The page that shows theirs. */
  theirs: string
  /** The answer when both say the same, as when a button was pressed twice. */
  alike: () => Answered
  /** A field’s name and value in words, where its name in the form and what was typed do not say it. */
  words?: (name: string, value: string) => { where?: string; value?: string }
}

/** The form over what was saved meanwhile, field by field. Sent again it is the same form, opened on theirs. */
export function showOverTheirs(
  c: PageContext,
  { what, typed, now, subject, theirs, alike, words }: OverTheirs,
): Answered {
  const mine = typedPairs(typed.nested).filter(([name]) => !ownNames.has(name))
  const names = new Set([...typedPairs(now.nested), ...mine].map(([name]) => name))
  const shown = (form: TypedForm, name: string) => {
    const value = form.values(name).join(', ')
    return words?.(name, value).value ?? (value || 'nothing')
  }
  const rows = [...names]
    .filter((name) => !ownNames.has(name) && !sameText(typed.values(name), now.values(name)))
    .map((name) => ({
      where: words?.(name, '').where ?? nameInWords(name),
      first: shown(now, name),
      second: shown(typed, name),
    }))
  if (rows.length === 0) return alike()
  const last = lastChangeOf(c.var.web.books, subject)
  const { pathname, search } = new URL(c.req.url)
  return showTwoVersions(c, {
    what,
    saved: last ? { at: last.at, by: last.actor } : null,
    rows,
    mine: {
      action: pathname + search,
      fields: [...mine, ['formId', newFormId()], ['basedOn', now.value('basedOn')]],
    },
    theirs,
  })
}

/** The version of a form whose texts come from several places: it changes when anything that the form shows does. */
export const versionOf = (shown: Readonly<Record<string, string>>): string => digestOf(shown).slice(0, 16)

/** Whether such a form was opened on an earlier version than there is now. One that was saved before is the store’s to answer. */
export const isOutdated = (c: PageContext, typed: TypedForm, now: TypedForm): boolean =>
  now.value('basedOn') !== typed.value('basedOn') && !wasCarriedOut(c.var.web.books, typed.value('formId'))

/** What a form carries for itself. */
const ownNames = new Set(['formId', 'basedOn'])

const sameText = (one: readonly string[], other: readonly string[]): boolean =>
  one.map((text) => text.trim()).join('\n') === other.map((text) => text.trim()).join('\n')

/** `people.0.born` → `people, 1, born`; `cashRole` → `cash role`. */
const nameInWords = (name: string): string =>
  name
    .replace(/\[\]$/, '')
    .split('.')
    .map((step) =>
      /^\d+$/.test(step)
        ? String(Number(step) + 1)
        : step.replaceAll(/([a-z])([A-Z])/g, '$1 $2').toLowerCase(),
    )
    .join(', ')
