// The list of page rooms: a new page is written as page-room.ts shows and added here.

import type { PageRoom } from '#web/forms/page-room.ts'
import { attachmentPages } from '#web/pages/attachments/attachments.tsx'
import { backupPages } from '#web/pages/backups/backups.tsx'
import { bookEntryPages } from '#web/pages/books/book-entry.tsx'
import { bookReceiptPages } from '#web/pages/books/book-receipt.tsx'
import { booksPages } from '#web/pages/books/books.tsx'
import { entriesPages } from '#web/pages/books/entries.tsx'
import { loanTermsPages } from '#web/pages/books/loan-terms.tsx'
import { moneyEarnsPages } from '#web/pages/books/money-earns.tsx'
import { registerPages } from '#web/pages/books/register.tsx'
import { registerChangePages } from '#web/pages/books/register-change.tsx'
import { spendingPages } from '#web/pages/books/spending.tsx'
import { sortingPages } from '#web/pages/books-sorting/sorting.tsx'
import { sortingRulePages } from '#web/pages/books-sorting/sorting-rules.tsx'
import { statementPages } from '#web/pages/books-statements/statements.tsx'
import { chancePages } from '#web/pages/chance/chance.tsx'
import { closePages } from '#web/pages/close/close.tsx'
import { coverPages } from '#web/pages/cover/cover.tsx'
import { crossingPages } from '#web/pages/crossings/crossings.tsx'
import { standingPages } from '#web/pages/crossings/standing.tsx'
import { dollarsPages } from '#web/pages/dollars/dollars.ts'
import { farmPages } from '#web/pages/farm/farm.tsx'
import { farmEditPages } from '#web/pages/farm/farm-edit.tsx'
import { batchPages } from '#web/pages/farm-notebook/batches.tsx'
import { hoursPages } from '#web/pages/farm-notebook/hours.tsx'
import { notebookPages } from '#web/pages/farm-notebook/notebook.tsx'
import { phonePages } from '#web/pages/farm-notebook/phone.tsx'
import { preparerPages } from '#web/pages/farm-notebook/preparer.tsx'
import { seenPages } from '#web/pages/farm-notebook/seen.tsx'
import { tablePages } from '#web/pages/farm-notebook/table.tsx'
import { mixedUpPages } from '#web/pages/mixed-up/mixed-up.tsx'
import { monthPages } from '#web/pages/month/month.tsx'
import { calendarPages } from '#web/pages/now/calendar.tsx'
import { nowPages } from '#web/pages/now/now.tsx'
import { questionPages } from '#web/pages/questions/questions.tsx'
import { reconcilePages } from '#web/pages/reconcile/reconcile.tsx'
import { earningsPages } from '#web/pages/runway/earnings.tsx'
import { runwayPages } from '#web/pages/runway/runway.tsx'
import { runwayActualPages } from '#web/pages/runway/runway-actual.tsx'
import { runwayComparePages } from '#web/pages/runway/runway-compare.tsx'
import { runwayEventPages } from '#web/pages/runway/runway-events.tsx'
import { runwayLoadPages } from '#web/pages/runway/runway-load.tsx'
import { runwayPlanPages } from '#web/pages/runway/runway-plan.tsx'
import { runwayRevisionPages } from '#web/pages/runway/runway-revisions.tsx'
import { runwayStormPages } from '#web/pages/runway/runway-storms.tsx'
import { passphrasePages } from '#web/pages/settings/passphrase.tsx'
import { settingsPages } from '#web/pages/settings/settings.tsx'
import { accountSettingsPages } from '#web/pages/settings/settings-accounts.tsx'
import { sideSettingsPages } from '#web/pages/settings/settings-sides.tsx'
import { slowerYearsPages } from '#web/pages/slower-years/slower-years.tsx'
import { slowerPhasePages } from '#web/pages/slower-years/slower-years-phases.tsx'
import { samplePages } from '#web/pages/start/sample-house.ts'
import { startPages } from '#web/pages/start/start.tsx'
import { closedYearPages } from '#web/pages/year-pack/closed-year.tsx'
import { contributionPages } from '#web/pages/year-pack/contributions.tsx'
import { coverPaperPages } from '#web/pages/year-pack/cover-papers.tsx'
import { depreciationEntryPages } from '#web/pages/year-pack/depreciation-entry.tsx'
import { farmFormPages } from '#web/pages/year-pack/farm-form.tsx'
import { holdingGonePages } from '#web/pages/year-pack/holdings/holding-gone.tsx'
import { holdingPages } from '#web/pages/year-pack/holdings/holdings.tsx'
import { payPages } from '#web/pages/year-pack/pay.tsx'
import { peoplePages } from '#web/pages/year-pack/people.tsx'
import { taxPaymentPages } from '#web/pages/year-pack/tax-payments.tsx'
import { ventureFormPages } from '#web/pages/year-pack/venture-form.tsx'
import { yearPackPages } from '#web/pages/year-pack/year-pack.tsx'
import { yearPackInputPages } from '#web/pages/year-pack/year-pack-inputs.tsx'
import { undoPages } from '#web/server/undo.ts'
import { actsPages } from './books/acts.tsx'
import { entryPurposePages } from './books/entry-purpose.tsx'

export const pageRooms: readonly PageRoom[] = [
  startPages,
  samplePages,
  nowPages,
  monthPages,
  booksPages,
  entriesPages,
  spendingPages,
  actsPages,
  entryPurposePages,
  bookEntryPages,
  bookReceiptPages,
  loanTermsPages,
  moneyEarnsPages,
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
  dollarsPages,
  runwayPages,
  chancePages,
  questionPages,
  runwayPlanPages,
  runwayLoadPages,
  earningsPages,
  runwayEventPages,
  runwayStormPages,
  runwayComparePages,
  runwayActualPages,
  runwayRevisionPages,
  farmPages,
  tablePages,
  phonePages,
  preparerPages,
  notebookPages,
  hoursPages,
  batchPages,
  seenPages,
  farmEditPages,
  slowerYearsPages,
  slowerPhasePages,
  passphrasePages,
  settingsPages,
  accountSettingsPages,
  sideSettingsPages,
  yearPackPages,
  closedYearPages,
  depreciationEntryPages,
  farmFormPages,
  peoplePages,
  payPages,
  ventureFormPages,
  holdingGonePages,
  holdingPages,
  taxPaymentPages,
  contributionPages,
  coverPaperPages,
  yearPackInputPages,
  calendarPages,
]
