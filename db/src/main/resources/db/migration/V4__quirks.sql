-- What people have noticed about a display and want the next visitor to know. A quirk is noted once and settled once;
-- neither is changed or deleted.

create table quirk (
    id          uuid primary key,
    display_id  uuid        not null references display,
    note        text        not null check (length(note) between 1 and 10000),
    seen_at     timestamptz not null,
    recorded_at timestamptz not null,
    recorded_by text        not null
);
create index quirk_display on quirk (display_id, seen_at desc);

create table quirk_settlement (
    quirk_id   uuid primary key references quirk,
    word       text        not null check (length(word) between 1 and 10000),
    settled_at timestamptz not null,
    settled_by text        not null
);
comment on column quirk_settlement.word is 'what became of it';

do $$
declare
    t text;
begin
    foreach t in array array['quirk', 'quirk_settlement']
    loop
        execute format('create trigger history before update or delete on %I for each row execute function refuse_change()', t);
        execute format('create trigger history_whole before truncate on %I for each statement execute function refuse_change()', t);
    end loop;
end $$;

create trigger audit after insert on quirk for each row execute function keep_audit();
create trigger audit after insert on quirk_settlement for each row execute function keep_audit('quirk_id');
