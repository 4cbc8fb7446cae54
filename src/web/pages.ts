// The list of page rooms: a new page is written as page-room.ts shows and added here.
import { attachmentPages } from './attachments.tsx'
import { backupPages } from './backups.tsx'
import { bookEntryPages } from './book-entry.tsx'
import { bookReceiptPages } from './book-receipt.tsx'
import { booksPages } from './books.tsx'
import { calendarPages } from './calendar.tsx'
import { chancePages } from './chance.tsx'
import { closePages } from './close.tsx'
import { coverPages } from './cover.tsx'
import { crossingPages } from './crossings.tsx'
import { farmPages } from './farm.tsx'
import { farmEditPages } from './farm-edit.tsx'
import { holdingPages } from './holdings.tsx'
import { mixedUpPages } from './mixed-up.tsx'
import { nowPages } from './now.tsx'
import type { PageRoom } from './page-room.ts'
import { passphrasePages } from './passphrase.tsx'
import { questionPages } from './questions.tsx'
import { reconcilePages } from './reconcile.tsx'
import { registerPages } from './register.tsx'
import { registerChangePages } from './register-change.tsx'
import { runwayPages } from './runway.tsx'
import { runwayActualPages } from './runway-actual.tsx'
import { runwayComparePages } from './runway-compare.tsx'
import { runwayPlanPages } from './runway-plan.tsx'
import { runwayRevisionPages } from './runway-revisions.tsx'
import { runwayStormPages } from './runway-storms.tsx'
import { samplePages } from './sample-house.ts'
import { settingsPages } from './settings.tsx'
import { accountSettingsPages } from './settings-accounts.tsx'
import { slowerYearsPages } from './slower-years.tsx'
import { slowerPhasePages } from './slower-years-phases.tsx'
import { sortingPages } from './sorting.tsx'
import { sortingRulePages } from './sorting-rules.tsx'
import { standingPages } from './standing.tsx'
import { startPages } from './start.tsx'
import { statementPages } from './statements.tsx'
import { undoPages } from './undo.ts'
import { yearPackPages } from './year-pack.tsx'
import { yearPackInputPages } from './year-pack-inputs.tsx'

export const pageRooms: readonly PageRoom[] = [
  startPages,
  samplePages,
  nowPages,
  booksPages,
  bookEntryPages,
  bookReceiptPages,
  registerPages,
  registerChangePages,
  attachmentPages,
  backupPages,
  reconcilePages,
  closePages,
  mixedUpPages,
  undoPages,
  statementPages,
  sortingRulePages,
  sortingPages,
  standingPages,
  crossingPages,
  coverPages,
  runwayPages,
  chancePages,
  questionPages,
  runwayPlanPages,
  runwayStormPages,
  runwayComparePages,
  runwayActualPages,
  runwayRevisionPages,
  farmPages,
  farmEditPages,
  slowerYearsPages,
  slowerPhasePages,
  passphrasePages,
  settingsPages,
  accountSettingsPages,
  yearPackPages,
  holdingPages,
  yearPackInputPages,
  calendarPages,
]
