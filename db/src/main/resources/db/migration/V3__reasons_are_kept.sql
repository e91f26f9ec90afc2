-- What a person gives as the reason for taking a thing out of use, or for taking a display out of its room, is kept
-- with the thing.

do $$
declare
    t text;
begin
    foreach t in array array['facility', 'room', 'display', 'tolerance_set', 'target', 'preset', 'instrument']
    loop
        execute format('alter table %I add column retirement_reason text check (length(retirement_reason) <= 10000)', t);
    end loop;
end $$;

alter table display_stay add column left_because text check (length(left_because) <= 10000);
comment on column display_stay.left_because is 'given when the stay is ended, and never changed';

create or replace function only_end() returns trigger language plpgsql as $$
begin
    if tg_op = 'UPDATE'
        and to_jsonb(new) - 'during' - 'left_because' = to_jsonb(old) - 'during' - 'left_because'
        and (to_jsonb(old) ->> 'left_because' is null
             or to_jsonb(new) ->> 'left_because' is not distinct from to_jsonb(old) ->> 'left_because')
        and lower(new.during) = lower(old.during)
        and (upper_inf(old.during) or upper(new.during) < upper(old.during))
        and not isempty(new.during)
    then
        return new;
    end if;
    raise exception '% is history: a row may only be ended', tg_table_name
        using errcode = 'restrict_violation', hint = 'End the row in force and add the one that follows it.';
end $$;
