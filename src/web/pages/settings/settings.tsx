// The Settings page, people and place, the words; other rooms add their doors to it.
import { Hono } from 'hono'
import { day } from '#calendar/day.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { isRelative, lived } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { stateNames } from '#rules/places/state-names.ts'
import { currentPlan } from '#today/current-plan.ts'
import { words } from '#views/settings/glossary.ts'
import { type SettingsDoor, type SettingsFigures, SettingsPage } from '#views/settings/settings.tsx'
import { SourcesPage } from '#views/settings/sources.tsx'
import { WordsPage } from '#views/settings/words.tsx'
import { PeoplePage } from '#views/start/start.tsx'
import { houseFirst } from '#web/forms/account-options.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { type FormErrors, openingForm, rowCount, statusOf, type TypedForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { placeChoices } from '#web/pages/start/place-choices.ts'
import { openingWho, takeWho } from '#web/pages/start/start.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const settingsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/settings', (c) => {
        const figures = settingsFigures(c)
        return answer(c, {
          title: 'Settings',
          figures,
          page: () => <SettingsPage figures={figures} doors={settingsDoors} />,
        })
      })
      .get('/settings/words', (c) =>
        answer(c, {
          title: 'Words we use',
          figures: words(),
          page: () => <WordsPage />,
          tables: {
            words: () => tableOf(words(), { word: (one) => one.word, means: (one) => one.means }),
          },
        }),
      )
      .get('/settings/sources', async (c) => {
        // Tables of a century are read when asked for: the first page of the house does not wait for them.
        const { outsideFigures } = await import('#src/outside-figures.ts')
        const figures = outsideFigures()
        return answer(c, {
          title: 'Sources',
          figures,
          page: () => <SourcesPage figures={figures} />,
          tables: {
            sources: () =>
              tableOf(
                figures.flatMap((figure) => figure.values.map((one) => ({ figure, one }))),
                {
                  topic: ({ figure }) => figure.topic,
                  rule: ({ figure }) => figure.rule,
                  unit: ({ figure }) => figure.unit,
                  year: ({ one }) => one.year,
                  value: ({ one }) => one.value,
                  obtained: ({ one }) => one.obtained,
                  source: ({ figure }) => figure.source,
                },
              ),
          },
        })
      })
      .get('/settings/people', (c) => showPeople(c, openingForm(openingWho(c)), {}))
      .post('/settings/people', (c) =>
        takeWho(c, showPeople, () => moveOn(c, '/settings', 'People and place are saved in the plan.')),
      ),
}

/** Doors to what other rooms keep under Settings. */
const settingsDoors: readonly SettingsDoor[] = [
  {
    href: '/settings/passphrase',
    name: 'Passphrase',
    says: 'locks Dooryard; needed when other computers can reach it',
  },
  {
    href: '/settings/backups',
    name: 'Backups',
    says: 'download a backup, automatic backups, check the books',
  },
  {
    href: '/settings/calendar',
    name: 'Dates ahead',
    says: 'tax, enrollment and transfers that fall due, and a file for your calendar',
  },
  { href: '/settings/words', name: 'Words we use', says: 'what each word on these pages means' },
  {
    href: '/settings/sources',
    name: 'Sources',
    says: 'every published figure, its year and where it comes from',
  },
]

function settingsFigures(c: PageContext): SettingsFigures {
  const { books } = c.var.web
  const current = currentPlan(books)
  const accounts = listAccounts(books)
  return {
    people: current.status === 'read' ? peopleOf(current.plan) : [],
    placeSays: current.status === 'read' ? placeWords(current.plan) : '',
    sides: houseFirst(listSides(books)).map((side) => ({
      id: side.id,
      kind: side.kind,
      name: side.name,
      accounts: accounts.filter((account) => account.sideId === side.id).length,
    })),
    dataFile: books.path,
    passphraseSet: c.var.web.access.isSet(),
  }
}

const peopleOf = (plan: Plan): SettingsFigures['people'] => [
  ...plan.household.people.map((one) => ({
    name: one.name,
    born: day(one.born),
    isChild: false,
    isRelative: false,
  })),
  ...lived(plan).household.dependents.map((one) => ({
    name: one.name,
    born: day(one.born),
    isChild: !isRelative(one),
    isRelative: isRelative(one),
  })),
]

const placeWords = ({ household }: Plan): string => {
  const { state, county } = household.place
  if (state === undefined)
    return 'No state is chosen yet: income tax, premiums and coverage follow from where you live.'
  return county === undefined ? `In ${stateNames[state]}` : `In ${county}, ${stateNames[state]}`
}

const showPeople = (c: PageContext, typed: TypedForm, errors: FormErrors) =>
  answer(c, {
    title: 'People and place',
    status: statusOf(errors),
    page: () => (
      <PeoplePage
        typed={typed}
        errors={errors}
        childRows={rowCount(typed, 'children', 3) + (typed.value('children.2.name') ? 1 : 0)}
        relativeRows={rowCount(typed, 'relatives', 1) + (typed.value('relatives.0.name') ? 1 : 0)}
        place={placeChoices(typed.value('state'))}
      />
    ),
  })
