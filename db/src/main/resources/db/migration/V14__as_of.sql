-- The book as it stood at any moment. What is only ever added carries the moment at which it was entered; of rows that change,
-- history keeps every version with the time over which it was the one in the book. The views of the schema as_of bear
-- the names of the tables and show them as they stood at the moment of the setting panelbook.as_of: a reader asks the same
-- statement of the past by looking there first.
--
-- The moment of a change is the one at which its transaction began, by the clock of the service (panelbook.now); it is
-- the same for all that the transaction does, unless it comes upon what another one entered later than that.

create schema history;
create schema as_of;

create function entered_now() returns timestamptz language sql stable as $$
    select coalesce(nullif(current_setting('panelbook.now', true), '')::timestamptz, now())
$$;

create function as_of.moment() returns timestamptz language sql stable as $$
    select current_setting('panelbook.as_of')::timestamptz
$$;

-- A book that was kept before cannot say how it stood then: not every version of what changed was kept.
create table history.beginning (
    one boolean primary key default true check (one),
    at   timestamptz not null
);
insert into history.beginning (at)
select case when exists (select from facility) then now() else '-infinity' end;
create trigger history before update or delete on history.beginning for each row execute function refuse_change();

alter table audit_entry alter column at set default entered_now();

-- What is only ever added ---------------------------------------------------------------------------------------------

do $$
declare
    t text;
    columns text;
begin
    foreach t in array array['tolerance_set_revision', 'target_revision', 'instrument_certificate', 'run', 'run_withdrawal',
                             'panel_hours', 'panel_hours_answer', 'match', 'match_withdrawal', 'match_story', 'match_step',
                             'match_given_up', 'control_range', 'finding', 'alert_event', 'instrument_correction',
                             'instrument_correction_withdrawal', 'display_merger', 'quirk', 'quirk_settlement']
    loop
        select string_agg(quote_ident(attname), ', ' order by attnum) into columns
        from pg_attribute where attrelid = t::regclass and attnum > 0 and not attisdropped;
        -- what is there already was there from the beginning
        execute format('alter table %I add column entered_at timestamptz not null default ''-infinity''', t);
        execute format('alter table %I alter column entered_at set default entered_now()', t);
        execute format('create view as_of.%1$I as select %2$s, entered_at from public.%1$I where entered_at <= as_of.moment()',
                       t, columns);
    end loop;
    -- parts of the above, entered with them and never asked for without them
    foreach t in array array['reading', 'run_answer', 'trim', 'tolerance']
    loop
        execute format('create view as_of.%1$I as select * from public.%1$I', t);
    end loop;
end $$;

-- What changes --------------------------------------------------------------------------------------------------------

create function history.only_leave() returns trigger language plpgsql as $$
begin
    if tg_op = 'UPDATE' and old.left_at is null and new.left_at > old.entered_at
        and to_jsonb(new) - 'left_at' = to_jsonb(old) - 'left_at' then
        return new;
    end if;
    -- a version that the same transaction replaces was never in the book
    if tg_op = 'DELETE' and old.left_at is null and old.entered_at >= public.entered_now() then
        return old;
    end if;
    raise exception '% is history: a version may only be ended', tg_table_name using errcode = 'restrict_violation';
end $$;

do $$
declare
    t text;
    keys text;
    columns text;
    values_ text;
    same text;
    same_new text;
begin
    for t, keys in
        select * from (values ('facility', 'id'), ('room', 'id'), ('display', 'id'), ('display_stay', 'id'), ('preset', 'id'),
                              ('target', 'id'), ('tolerance_set', 'id'), ('hero', 'id'), ('instrument', 'id'), ('baseline', 'id'),
                              ('alert', 'id'), ('panel_hours_question', 'id'), ('standing_finding', 'preset_id, slot')) kept (t, keys)
    loop
        select string_agg(quote_ident(attname), ', ' order by attnum), string_agg('new.' || quote_ident(attname), ', ' order by attnum)
        into columns, values_
        from pg_attribute where attrelid = t::regclass and attnum > 0 and not attisdropped;
        select string_agg(format('%1$s = old.%1$s', k), ' and '), string_agg(format('%1$s = new.%1$s', k), ' and ')
        into same, same_new from unnest(string_to_array(keys, ', ')) k;

        execute format('create table history.%1$I (entered_at timestamptz not null, left_at timestamptz, like public.%1$I)', t);
        execute format('insert into history.%1$I (entered_at, %2$s) select ''-infinity'', %2$s from public.%1$I', t, columns);
        execute format('create unique index %1$s_in_the_book on history.%1$I (%2$s) where left_at is null', t, keys);
        execute format('create index %1$s_versions on history.%1$I (%2$s, entered_at)', t, keys);
        execute format('create view as_of.%1$I as select %2$s from history.%1$I
                        where entered_at <= as_of.moment() and (left_at is null or left_at > as_of.moment())', t, columns);
        -- a function for each table, so that its statements are planned once
        execute format($f$
            create function history.keep_%1$s() returns trigger language plpgsql as $t$
            declare
                at timestamptz := public.entered_now();
                last timestamptz;
            begin
                if tg_op = 'UPDATE' and new is not distinct from old then
                    return null;
                end if;
                if tg_op = 'INSERT' then
                    select left_at into last from history.%1$s where %5$s order by entered_at desc limit 1;
                else
                    select entered_at into last from history.%1$s where %2$s and left_at is null;
                end if;
                -- a transaction that began later was there first: versions follow each other, and so does all that comes after
                -- this in the transaction
                if last > at then
                    at := last;
                    perform set_config('panelbook.now', at::text, true);
                end if;
                if tg_op <> 'INSERT' then
                    if last = at then
                        delete from history.%1$s where %2$s and left_at is null;
                    else
                        update history.%1$s set left_at = at where %2$s and left_at is null;
                    end if;
                end if;
                if tg_op <> 'DELETE' then
                    insert into history.%1$s (entered_at, %3$s) values (at, %4$s);
                end if;
                return null;
            end $t$ $f$, t, same, columns, values_, same_new);
        execute format('create trigger versions after insert or update or delete on %1$I
                        for each row execute function history.keep_%1$s()', t);
        execute format('create trigger history before update or delete on history.%I
                        for each row execute function history.only_leave()', t);
        execute format('create trigger history_whole before truncate on history.%I
                        for each statement execute function refuse_change()', t);
    end loop;
end $$;

create index room_versions_facility on history.room (facility_id);
create index display_versions_facility on history.display (facility_id);
create index display_stay_versions_room on history.display_stay (room_id);
create index display_stay_versions_display on history.display_stay (display_id);
create index preset_versions_display on history.preset (display_id);
create index hero_versions_room on history.hero (room_id, target_id);
create index hero_versions_preset on history.hero (preset_id);
create index baseline_versions_preset on history.baseline (preset_id);
create index baseline_versions_run on history.baseline (run_id);
create index standing_finding_versions_finding on history.standing_finding (finding_id);
create index alert_versions_subject on history.alert (subject_id);
create index alert_versions_room on history.alert (room_id);
create index panel_hours_question_versions_display on history.panel_hours_question (display_id);

-- What counts, by the same definitions --------------------------------------------------------------------------------

do $$
declare
    v text;
    definition text;
    path text := current_setting('search_path');
begin
    foreach v in array array['counted_run', 'counted_panel_hours', 'counted_baseline', 'counted_match']
    loop
        perform set_config('search_path', 'public', true);
        definition := pg_get_viewdef(v::regclass);
        perform set_config('search_path', 'as_of, public', true);
        execute format('create view as_of.%I as %s', v, definition);
    end loop;
    perform set_config('search_path', path, true);
end $$;
