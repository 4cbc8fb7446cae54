-- What a bookkeeper expects of posted books, held by the file itself: balance, one side, equal halves, nothing rewritten, closed months shut.
-- An INSERT OR REPLACE deletes without firing delete triggers, so the insert guards also refuse rows that are already there.
CREATE VIRTUAL TABLE entry_search USING fts5(payee, memo, lines, accounts, content='', prefix='2 3', tokenize='unicode61 remove_diacritics 2');
--> statement-breakpoint
CREATE TRIGGER entries_insert BEFORE INSERT ON entries
WHEN EXISTS (SELECT 1 FROM entries WHERE no = NEW.no) OR EXISTS (SELECT 1 FROM entries WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'posted entries are never replaced'); END;
--> statement-breakpoint
CREATE TRIGGER entries_update BEFORE UPDATE ON entries
BEGIN SELECT RAISE(ABORT, 'posted entries are never changed: post a reversing entry'); END;
--> statement-breakpoint
CREATE TRIGGER entries_delete BEFORE DELETE ON entries
BEGIN SELECT RAISE(ABORT, 'posted entries are never deleted: post a reversing entry'); END;
--> statement-breakpoint
CREATE TRIGGER postings_insert BEFORE INSERT ON postings
BEGIN
  SELECT RAISE(ABORT, 'postings are never replaced')
  WHERE EXISTS (SELECT 1 FROM postings WHERE id = NEW.id)
     OR EXISTS (SELECT 1 FROM postings WHERE entry_no = NEW.entry_no AND line_no = NEW.line_no);
  SELECT RAISE(ABORT, 'a posted entry takes no more lines')
  WHERE EXISTS (SELECT 1 FROM sealed_entries WHERE entry_no = NEW.entry_no);
  SELECT RAISE(ABORT, 'an entry posts only to accounts of its own side, on its own day')
  WHERE NOT EXISTS (
    SELECT 1 FROM entries JOIN accounts ON accounts.side_id = entries.side_id
    WHERE entries.no = NEW.entry_no AND accounts.id = NEW.account_id AND entries.day = NEW.day);
  SELECT RAISE(ABORT, 'only crossings post to accounts that stand for another side')
  WHERE (SELECT crossing_role FROM accounts WHERE id = NEW.account_id) IS NOT NULL AND NEW.crossing_id IS NULL;
  SELECT RAISE(ABORT, 'a crossing posts to accounts that stand for its other side, before it is sealed')
  WHERE NEW.crossing_id IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM crossings JOIN accounts ON accounts.id = NEW.account_id
    WHERE crossings.id = NEW.crossing_id
      AND ((accounts.side_id = crossings.from_side_id AND accounts.crossing_side_id = crossings.to_side_id)
        OR (accounts.side_id = crossings.to_side_id AND accounts.crossing_side_id = crossings.from_side_id))
      AND NOT EXISTS (SELECT 1 FROM sealed_crossings WHERE crossing_id = NEW.crossing_id));
END;
--> statement-breakpoint
CREATE TRIGGER postings_rollup AFTER INSERT ON postings
BEGIN
  INSERT INTO account_months (account_id, month, sum_cents, count)
  VALUES (NEW.account_id, CAST(substr(NEW.day, 1, 4) AS INTEGER) * 12 + CAST(substr(NEW.day, 6, 2) AS INTEGER) - 1, NEW.amount_cents, 1)
  ON CONFLICT (account_id, month) DO UPDATE SET sum_cents = sum_cents + excluded.sum_cents, count = count + 1;
  INSERT INTO account_years (account_id, year, sum_cents, count)
  VALUES (NEW.account_id, CAST(substr(NEW.day, 1, 4) AS INTEGER), NEW.amount_cents, 1)
  ON CONFLICT (account_id, year) DO UPDATE SET sum_cents = sum_cents + excluded.sum_cents, count = count + 1;
END;
--> statement-breakpoint
CREATE TRIGGER postings_update BEFORE UPDATE ON postings
BEGIN SELECT RAISE(ABORT, 'postings are never changed: post a reversing entry'); END;
--> statement-breakpoint
CREATE TRIGGER postings_delete BEFORE DELETE ON postings
BEGIN SELECT RAISE(ABORT, 'postings are never deleted: post a reversing entry'); END;
--> statement-breakpoint
CREATE TRIGGER sealed_entries_insert BEFORE INSERT ON sealed_entries
BEGIN
  SELECT RAISE(ABORT, 'an entry is sealed once') WHERE EXISTS (SELECT 1 FROM sealed_entries WHERE entry_no = NEW.entry_no);
  SELECT RAISE(ABORT, 'an entry needs two lines or more that add up to zero')
  WHERE (SELECT count(*) < 2 OR sum(amount_cents) <> 0 FROM postings WHERE entry_no = NEW.entry_no);
  SELECT RAISE(ABORT, 'the month is closed: date the entry later or reopen the month')
  WHERE EXISTS (
    SELECT 1 FROM entries JOIN month_closings ON month_closings.side_id = entries.side_id
    WHERE entries.no = NEW.entry_no AND month_closings.reopened_at IS NULL
      AND month_closings.month >= CAST(substr(entries.day, 1, 4) AS INTEGER) * 12 + CAST(substr(entries.day, 6, 2) AS INTEGER) - 1);
  SELECT RAISE(ABORT, 'a reversing entry takes back exactly what the first one posted')
  WHERE EXISTS (
    SELECT 1 FROM entries AS reversing WHERE reversing.no = NEW.entry_no AND reversing.reverses_no IS NOT NULL
      AND (NOT EXISTS (SELECT 1 FROM entries AS first WHERE first.no = reversing.reverses_no AND first.side_id = reversing.side_id)
        OR EXISTS (
          SELECT 1 FROM postings WHERE entry_no IN (reversing.no, reversing.reverses_no)
          GROUP BY account_id, enterprise_id HAVING sum(amount_cents) <> 0)));
END;
--> statement-breakpoint
CREATE TRIGGER sealed_entries_search AFTER INSERT ON sealed_entries
BEGIN
  INSERT INTO entry_search (rowid, payee, memo, lines, accounts)
  SELECT no, payee, memo,
    coalesce((SELECT group_concat(memo, ' ') FROM postings WHERE entry_no = no AND memo <> ''), ''),
    (SELECT group_concat('a' || account_id, ' ') FROM postings WHERE entry_no = no)
  FROM entries WHERE no = NEW.entry_no;
END;
--> statement-breakpoint
CREATE TRIGGER sealed_entries_update BEFORE UPDATE ON sealed_entries
BEGIN SELECT RAISE(ABORT, 'a seal is never changed'); END;
--> statement-breakpoint
CREATE TRIGGER sealed_entries_delete BEFORE DELETE ON sealed_entries
BEGIN SELECT RAISE(ABORT, 'a seal is never broken'); END;
--> statement-breakpoint
CREATE TRIGGER crossings_insert BEFORE INSERT ON crossings
WHEN EXISTS (SELECT 1 FROM crossings WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'crossings are never replaced'); END;
--> statement-breakpoint
CREATE TRIGGER crossings_update BEFORE UPDATE ON crossings
BEGIN SELECT RAISE(ABORT, 'crossings are never changed: record one that takes it back'); END;
--> statement-breakpoint
CREATE TRIGGER crossings_delete BEFORE DELETE ON crossings
BEGIN SELECT RAISE(ABORT, 'crossings are never deleted: record one that takes it back'); END;
--> statement-breakpoint
CREATE TRIGGER sealed_crossings_insert BEFORE INSERT ON sealed_crossings
BEGIN
  SELECT RAISE(ABORT, 'a crossing is sealed once') WHERE EXISTS (SELECT 1 FROM sealed_crossings WHERE crossing_id = NEW.crossing_id);
  SELECT RAISE(ABORT, 'the two halves of a crossing must be equal')
  WHERE NOT EXISTS (
    SELECT 1 FROM crossings WHERE id = NEW.crossing_id
      AND amount_cents = (SELECT sum(postings.amount_cents) FROM postings JOIN accounts ON accounts.id = postings.account_id
        WHERE postings.crossing_id = crossings.id AND accounts.side_id = crossings.from_side_id)
      AND -amount_cents = (SELECT sum(postings.amount_cents) FROM postings JOIN accounts ON accounts.id = postings.account_id
        WHERE postings.crossing_id = crossings.id AND accounts.side_id = crossings.to_side_id));
  SELECT RAISE(ABORT, 'a crossing is made of posted entries on its own day')
  WHERE EXISTS (
    SELECT 1 FROM postings JOIN crossings ON crossings.id = postings.crossing_id
    WHERE postings.crossing_id = NEW.crossing_id
      AND (postings.day <> crossings.day OR NOT EXISTS (SELECT 1 FROM sealed_entries WHERE sealed_entries.entry_no = postings.entry_no)));
  SELECT RAISE(ABORT, 'a crossing that takes another back has its amount and its sides swapped')
  WHERE EXISTS (
    SELECT 1 FROM crossings AS back WHERE back.id = NEW.crossing_id AND back.reverses_id IS NOT NULL
      AND NOT EXISTS (SELECT 1 FROM crossings AS first WHERE first.id = back.reverses_id AND first.kind = back.kind
        AND first.amount_cents = back.amount_cents AND first.from_side_id = back.to_side_id AND first.to_side_id = back.from_side_id));
END;
--> statement-breakpoint
CREATE TRIGGER sealed_crossings_update BEFORE UPDATE ON sealed_crossings
BEGIN SELECT RAISE(ABORT, 'a seal is never changed'); END;
--> statement-breakpoint
CREATE TRIGGER sealed_crossings_delete BEFORE DELETE ON sealed_crossings
BEGIN SELECT RAISE(ABORT, 'a seal is never broken'); END;
--> statement-breakpoint
CREATE TRIGGER accounts_update BEFORE UPDATE OF id, side_id, crossing_role, crossing_side_id ON accounts
WHEN NEW.id IS NOT OLD.id OR NEW.side_id IS NOT OLD.side_id
  OR NEW.crossing_role IS NOT OLD.crossing_role OR NEW.crossing_side_id IS NOT OLD.crossing_side_id
BEGIN SELECT RAISE(ABORT, 'an account stays on its side'); END;
--> statement-breakpoint
CREATE TRIGGER accounts_kind_update BEFORE UPDATE OF kind ON accounts
WHEN NEW.kind <> OLD.kind AND EXISTS (SELECT 1 FROM account_years WHERE account_id = OLD.id)
BEGIN SELECT RAISE(ABORT, 'an account with entries keeps its kind'); END;
--> statement-breakpoint
CREATE TRIGGER standing_occurrences_update BEFORE UPDATE ON standing_occurrences
WHEN OLD.state = 'posted'
BEGIN SELECT RAISE(ABORT, 'a posted month of a standing transfer stays'); END;
--> statement-breakpoint
CREATE TRIGGER standing_occurrences_delete BEFORE DELETE ON standing_occurrences
WHEN OLD.state = 'posted'
BEGIN SELECT RAISE(ABORT, 'a posted month of a standing transfer stays'); END;
--> statement-breakpoint
CREATE TRIGGER reconciliations_finish BEFORE UPDATE OF state ON reconciliations
WHEN NEW.state = 'finished' AND NEW.statement_balance_cents <> NEW.previous_balance_cents + coalesce((
  SELECT sum(postings.amount_cents) FROM reconciliation_ticks JOIN postings ON postings.id = reconciliation_ticks.posting_id
  WHERE reconciliation_ticks.reconciliation_id = NEW.id), 0)
BEGIN SELECT RAISE(ABORT, 'a reconciliation is finished only when its difference is zero'); END;
--> statement-breakpoint
CREATE TRIGGER reconciliations_insert BEFORE INSERT ON reconciliations
WHEN NEW.state <> 'open' OR EXISTS (SELECT 1 FROM reconciliations WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'a reconciliation starts open'); END;
--> statement-breakpoint
CREATE TRIGGER reconciliations_update BEFORE UPDATE ON reconciliations
WHEN OLD.state = 'finished' AND (NEW.state = 'finished' OR EXISTS (
  SELECT 1 FROM reconciliations AS later WHERE later.account_id = OLD.account_id AND later.id <> OLD.id
    AND (later.state = 'open' OR later.statement_day > OLD.statement_day)))
BEGIN SELECT RAISE(ABORT, 'only the last finished reconciliation of an account can be reopened'); END;
--> statement-breakpoint
CREATE TRIGGER reconciliations_delete BEFORE DELETE ON reconciliations
WHEN OLD.state = 'finished'
BEGIN SELECT RAISE(ABORT, 'a finished reconciliation stays'); END;
--> statement-breakpoint
CREATE TRIGGER reconciliation_ticks_insert BEFORE INSERT ON reconciliation_ticks
WHEN EXISTS (SELECT 1 FROM reconciliation_ticks WHERE posting_id = NEW.posting_id) OR NOT EXISTS (
  SELECT 1 FROM reconciliations JOIN postings ON postings.account_id = reconciliations.account_id
  WHERE reconciliations.id = NEW.reconciliation_id AND reconciliations.state = 'open' AND postings.id = NEW.posting_id)
BEGIN SELECT RAISE(ABORT, 'a tick belongs to an open reconciliation of the same account, once'); END;
--> statement-breakpoint
CREATE TRIGGER reconciliation_ticks_update BEFORE UPDATE ON reconciliation_ticks
BEGIN SELECT RAISE(ABORT, 'a tick is taken away and set again'); END;
--> statement-breakpoint
CREATE TRIGGER reconciliation_ticks_delete BEFORE DELETE ON reconciliation_ticks
WHEN EXISTS (SELECT 1 FROM reconciliations WHERE id = OLD.reconciliation_id AND state = 'finished')
BEGIN SELECT RAISE(ABORT, 'ticks of a finished reconciliation stay'); END;
--> statement-breakpoint
CREATE TRIGGER statement_lines_posting_insert BEFORE INSERT ON statement_lines
WHEN NEW.posting_id IS NOT NULL AND NOT EXISTS (
  SELECT 1 FROM postings WHERE id = NEW.posting_id AND account_id = NEW.account_id AND amount_cents = NEW.amount_cents)
BEGIN SELECT RAISE(ABORT, 'a statement line stands for a posting of the same account and amount'); END;
--> statement-breakpoint
CREATE TRIGGER statement_lines_posting_update BEFORE UPDATE OF posting_id ON statement_lines
WHEN NEW.posting_id IS NOT NULL AND NOT EXISTS (
  SELECT 1 FROM postings WHERE id = NEW.posting_id AND account_id = NEW.account_id AND amount_cents = NEW.amount_cents)
BEGIN SELECT RAISE(ABORT, 'a statement line stands for a posting of the same account and amount'); END;
--> statement-breakpoint
CREATE TRIGGER statement_lines_bank_facts BEFORE UPDATE OF account_id, line_key, day, amount_cents, statement_id ON statement_lines
WHEN NEW.account_id IS NOT OLD.account_id OR NEW.line_key IS NOT OLD.line_key OR NEW.day IS NOT OLD.day
  OR NEW.amount_cents IS NOT OLD.amount_cents OR NEW.statement_id IS NOT OLD.statement_id
BEGIN SELECT RAISE(ABORT, 'what the bank said stays as it was said'); END;
--> statement-breakpoint
CREATE TRIGGER month_closings_insert BEFORE INSERT ON month_closings
WHEN NEW.reopened_at IS NOT NULL OR EXISTS (SELECT 1 FROM month_closings WHERE id = NEW.id) OR EXISTS (
  SELECT 1 FROM month_closings WHERE side_id = NEW.side_id AND month >= NEW.month AND reopened_at IS NULL)
BEGIN SELECT RAISE(ABORT, 'the month is closed already'); END;
--> statement-breakpoint
CREATE TRIGGER month_closings_update BEFORE UPDATE ON month_closings
WHEN OLD.reopened_at IS NOT NULL OR NEW.reopened_at IS NULL OR NEW.id <> OLD.id OR NEW.side_id <> OLD.side_id
  OR NEW.month <> OLD.month OR NEW.closed_at <> OLD.closed_at OR EXISTS (
    SELECT 1 FROM month_closings WHERE side_id = OLD.side_id AND month > OLD.month AND reopened_at IS NULL)
BEGIN SELECT RAISE(ABORT, 'only the last closed month of a side can be reopened, once'); END;
--> statement-breakpoint
CREATE TRIGGER month_closings_delete BEFORE DELETE ON month_closings
BEGIN SELECT RAISE(ABORT, 'a closing leaves its trace'); END;
--> statement-breakpoint
CREATE TRIGGER attachments_delete BEFORE DELETE ON attachments
BEGIN SELECT RAISE(ABORT, 'an attachment is marked as removed, not deleted'); END;
--> statement-breakpoint
CREATE TRIGGER plan_revisions_insert BEFORE INSERT ON plan_revisions
WHEN NEW.revision_no <> 1 + coalesce((SELECT max(revision_no) FROM plan_revisions WHERE plan_id = NEW.plan_id), 0)
BEGIN SELECT RAISE(ABORT, 'a plan is saved as its next revision'); END;
--> statement-breakpoint
CREATE TRIGGER plan_revisions_update BEFORE UPDATE ON plan_revisions
BEGIN SELECT RAISE(ABORT, 'a saved revision is never changed'); END;
--> statement-breakpoint
CREATE TRIGGER plan_revisions_delete BEFORE DELETE ON plan_revisions
BEGIN SELECT RAISE(ABORT, 'a saved revision is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER change_log_insert BEFORE INSERT ON change_log
WHEN NEW.id <= coalesce((SELECT max(id) FROM change_log), 0) AND NEW.id > 0
BEGIN SELECT RAISE(ABORT, 'the change log only grows'); END;
--> statement-breakpoint
CREATE TRIGGER change_log_update BEFORE UPDATE ON change_log
BEGIN SELECT RAISE(ABORT, 'the change log is never changed'); END;
--> statement-breakpoint
CREATE TRIGGER change_log_delete BEFORE DELETE ON change_log
BEGIN SELECT RAISE(ABORT, 'the change log is never shortened'); END;
--> statement-breakpoint
CREATE TRIGGER submissions_insert BEFORE INSERT ON submissions
WHEN EXISTS (SELECT 1 FROM submissions WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'a form is carried out once'); END;
--> statement-breakpoint
CREATE TRIGGER submissions_update BEFORE UPDATE ON submissions
BEGIN SELECT RAISE(ABORT, 'a form is carried out once'); END;
--> statement-breakpoint
CREATE TRIGGER submissions_delete BEFORE DELETE ON submissions
BEGIN SELECT RAISE(ABORT, 'a form that was carried out stays'); END;
