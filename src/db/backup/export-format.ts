// The one-file export: what is in it and in which order. Its JSON explains itself, so that another program can read it in thirty years.
//
// { "format": "dooryard-books", "version": 1, "structure": 1795599108352, "exportedAt": "…", "about": "…",
//   "tables": [ { "name": "sides", "about": "…", "columns": ["id", …], "rows": [["farm", …], …] }, … ],
//   "attachments": [ { "hash": "<SHA-256 in hex>", "base64": "…" }, … ] }
//
// Amounts are integer cents, debits positive; days are ISO text; months are year × 12 + month − 1; instants are ISO text in UTC.

export const exportFormat = 'dooryard-books'
export const exportVersion = 1

export const exportAbout =
  'All of a Dooryard books file. Amounts are whole cents, debits positive. Days are YYYY-MM-DD. A month is year × 12 + month − 1. Instants are UTC. Columns that hold JSON hold it as text. Tables come in the order in which they can be read in.'

export interface ExportedTable {
  name: string
  about: string
  /** Rows in this order can be inserted one after the other. */
  orderedBy: string
}

export const exportedTables: readonly ExportedTable[] = [
  { name: 'sides', about: 'The separate sets of books', orderedBy: 'position, id' },
  { name: 'accounts', about: 'Accounts of each side', orderedBy: 'id' },
  { name: 'crossings', about: 'Value that moved between two sides', orderedBy: 'posted_at, id' },
  { name: 'entries', about: 'Posted entries, one side each', orderedBy: 'no' },
  { name: 'postings', about: 'Lines of entries: signed cents on an account', orderedBy: 'id' },
  { name: 'sealed_entries', about: 'Entries that were checked when posted', orderedBy: 'entry_no' },
  { name: 'sealed_crossings', about: 'Crossings whose halves were checked', orderedBy: 'crossing_id' },
  { name: 'standing_transfers', about: 'Crossings that come back every month', orderedBy: 'created_at, id' },
  {
    name: 'standing_occurrences',
    about: 'Months of standing transfers, posted or skipped',
    orderedBy: 'standing_id, month',
  },
  {
    name: 'statement_mappings',
    about: 'How columns of CSV statements are read',
    orderedBy: 'created_at, id',
  },
  { name: 'statements', about: 'Bank statements read in', orderedBy: 'imported_at, id' },
  {
    name: 'other_bank_keys',
    about: 'Further numbers under which bank files name an account',
    orderedBy: 'bank_key',
  },
  { name: 'sorting_rules', about: 'How transactions find their account', orderedBy: 'created_at, id' },
  {
    name: 'statement_lines',
    about: 'Transactions of bank statements as the bank wrote them',
    orderedBy: 'id',
  },
  { name: 'line_choices', about: 'What is chosen for transactions and not booked yet', orderedBy: 'line_id' },
  {
    name: 'reconciliations',
    about: 'Accounts compared with a statement balance',
    orderedBy: 'statement_day, id',
  },
  { name: 'reconciliation_ticks', about: 'Postings seen on a statement', orderedBy: 'posting_id' },
  { name: 'month_closings', about: 'Closed months and their reopening', orderedBy: 'closed_at, id' },
  {
    name: 'attachments',
    about: 'Receipts kept with entries; the files are under "attachments"',
    orderedBy: 'added_at, id',
  },
  { name: 'market_values', about: 'What accounts were worth at market', orderedBy: 'account_id, day' },
  { name: 'holdings', about: 'Stock and equipment by the piece', orderedBy: 'created_at, id' },
  { name: 'holding_parts', about: 'Parts of things that were sold', orderedBy: 'created_at, id' },
  {
    name: 'holding_values',
    about: 'What stock and equipment was worth at market',
    orderedBy: 'holding_id, day',
  },
  {
    name: 'kept_packs',
    about: 'Year packs as they were when their year was closed',
    orderedBy: 'year, copy_no',
  },
  { name: 'accrual_adjustments', about: 'What cash books do not show at a year’s end', orderedBy: 'day, id' },
  { name: 'batches', about: 'Lots of an enterprise from start to last sale', orderedBy: 'created_at, id' },
  { name: 'batch_ties', about: 'Lines of entries that belong to a batch', orderedBy: 'posting_id' },
  { name: 'batch_marks', about: 'Losses, weights and sales of batches', orderedBy: 'day, id' },
  { name: 'work_hours', about: 'Time worked, by person and thing', orderedBy: 'day, id' },
  { name: 'head_tallies', about: 'Head of stock, counted, come and gone', orderedBy: 'day, id' },
  { name: 'market_days', about: 'Days at markets', orderedBy: 'day, id' },
  {
    name: 'market_takings',
    about: 'What a market day took, by product and means',
    orderedBy: 'market_day_id, enterprise_id, means',
  },
  { name: 'trips', about: 'Miles driven for the farm, and readings of the odometer', orderedBy: 'day, id' },
  { name: 'goods_notes', about: 'Goods that left the farm without money', orderedBy: 'day, id' },
  {
    name: 'goods_entries',
    about: 'Goods bartered for costs of the farm, and their entries',
    orderedBy: 'goods_id',
  },
  {
    name: 'posting_tax',
    about: 'As what and for which year postings count for tax',
    orderedBy: 'posting_id',
  },
  { name: 'payees', about: 'What is known of payees for the year’s forms', orderedBy: 'name' },
  { name: 'plans', about: 'Plans by name', orderedBy: 'created_at, id' },
  { name: 'plan_revisions', about: 'Every saved revision of every plan', orderedBy: 'plan_id, revision_no' },
  { name: 'settings', about: 'Settings as JSON under a key', orderedBy: 'key' },
  { name: 'runway_history', about: 'Months left, as forecast each month', orderedBy: 'month' },
  { name: 'submissions', about: 'Forms that were carried out', orderedBy: 'at, id' },
  { name: 'change_log', about: 'Every change, in order', orderedBy: 'id' },
  {
    name: 'chain_links',
    about: 'Which rows each act wrote, with their digests, each link resting on the one before',
    orderedBy: 'no',
  },
]

/** Tables made anew from the others while reading in, or kept by the program for itself. */
export const derivedTables: readonly string[] = ['account_months', 'account_years', 'entry_search']
