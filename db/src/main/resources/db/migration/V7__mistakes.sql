-- Mistakes are put right by rows that say so: what was entered stays readable and counts no longer. A baseline may be
-- withdrawn once; the one that it had ended is put back by a row of its own, so that declared_at and withdrawn_at still
-- tell what held at any time.

create table run_withdrawal (
    run_id       uuid primary key references run,
    reason       text        not null check (length(reason) between 1 and 10000),
    replaced_by  uuid        references run,
    withdrawn_at timestamptz not null,
    withdrawn_by text        not null,
    check (replaced_by <> run_id)
);
comment on column run_withdrawal.replaced_by is 'the same readings on the preset that they were taken on';

create table match_withdrawal (
    match_id     uuid primary key references match,
    reason       text        not null check (length(reason) between 1 and 10000),
    replaced_by  uuid        references match,
    withdrawn_at timestamptz not null,
    withdrawn_by text        not null,
    check (replaced_by <> match_id)
);

create table display_merger (
    duplicate_id uuid primary key references display,
    into_id      uuid        not null references display,
    reason       text        not null check (length(reason) between 1 and 10000),
    merged_at    timestamptz not null,
    merged_by    text        not null,
    check (into_id <> duplicate_id)
);

create table mending_answer (
    subject_id uuid primary key,
    answer     jsonb not null
);
comment on table mending_answer is 'what the request that put a run, a match or a display right was answered with';

do $$
declare
    t text;
begin
    foreach t in array array['run_withdrawal', 'match_withdrawal', 'display_merger', 'mending_answer']
    loop
        execute format('create trigger history before update or delete on %I for each row execute function refuse_change()', t);
        execute format('create trigger history_whole before truncate on %I for each statement execute function refuse_change()', t);
    end loop;
end $$;

create trigger audit after insert on run_withdrawal for each row execute function keep_audit('run_id');
create trigger audit after insert on match_withdrawal for each row execute function keep_audit('match_id');
create trigger audit after insert on display_merger for each row execute function keep_audit('duplicate_id');

-- Baselines ----------------------------------------------------------------------------------------------------------

alter table baseline
    add column withdrawn_at timestamptz,
    add column withdrawn_by text,
    add column withdrawn_because text check (length(withdrawn_because) <= 10000),
    add check ((withdrawn_at is null) = (withdrawn_by is null) and (withdrawn_at is null) = (withdrawn_because is null)),
    drop constraint baseline_run_id_key,
    drop constraint preset_has_one_baseline_at_a_time,
    add constraint preset_has_one_baseline_at_a_time
        exclude using gist (preset_id with =, during with &&) where (withdrawn_at is null);
create unique index baseline_holds_once_for_a_run on baseline (run_id) where withdrawn_at is null;
create index baseline_run on baseline (run_id, declared_at);
drop index baseline_preset;
create index baseline_preset on baseline (preset_id) where upper_inf(during) and withdrawn_at is null;

create function only_end_or_withdraw() returns trigger language plpgsql as $$
declare
    word text[] := array['withdrawn_at', 'withdrawn_by', 'withdrawn_because'];
begin
    if tg_op = 'UPDATE' and old.withdrawn_at is null then
        if new.withdrawn_at is not null and to_jsonb(new) - word = to_jsonb(old) - word then
            return new;
        end if;
        if to_jsonb(new) - 'during' = to_jsonb(old) - 'during'
            and lower(new.during) = lower(old.during)
            and (upper_inf(old.during) or upper(new.during) < upper(old.during))
            and not isempty(new.during)
        then
            return new;
        end if;
    end if;
    raise exception '% is history: a row may only be ended or withdrawn', tg_table_name
        using errcode = 'restrict_violation', hint = 'End or withdraw the row in force and add the one that follows it.';
end $$;

drop trigger history on baseline;
create trigger history before update or delete on baseline for each row execute function only_end_or_withdraw();

-- What counts --------------------------------------------------------------------------------------------------------
-- Looked up row by row on purpose: as a join, each of these would be one more table for the planner to order.

create view counted_run as
    select r.* from run r where (select w.run_id from run_withdrawal w where w.run_id = r.id) is null;

create view counted_panel_hours as
    select h.* from panel_hours h where (select w.run_id from run_withdrawal w where w.run_id = h.run_id) is null;

create view counted_baseline as
    select b.* from baseline b where b.withdrawn_at is null;

create view counted_match as
    select m.* from match m where (select w.match_id from match_withdrawal w where w.match_id = m.id) is null;
