-- What is read from calendars and asked about panel hours.

-- Bookings -----------------------------------------------------------------------------------------------------------
-- The address of a calendar can open it to whoever knows it: it lies in a table that the audit log does not copy, and goes
-- when the source does. So does what each reading changes, which would flood the log.

create table booking_reading (
    source_id     uuid primary key references booking_source,
    url           text        check (length(url) <= 2000),
    etag          text,
    last_modified text,
    digest        bytea,
    read_at       timestamptz,
    tried_at      timestamptz,
    error         text
);
comment on column booking_reading.url is 'secret; null when a client sends the calendar';
comment on column booking_reading.digest is 'SHA-256 of the calendar that was read last';
comment on column booking_reading.error is 'why the last try failed; null when it did not';
create index booking_reading_tried on booking_reading (tried_at nulls first) where url is not null;

insert into booking_reading (source_id, url, etag, read_at, tried_at, error)
select id, url, etag, last_read_at, last_tried_at, last_error from booking_source;

alter table booking_source
    add column fetched boolean not null default false,
    drop column etag,
    drop column last_read_at,
    drop column last_tried_at,
    drop column last_error,
    drop constraint booking_source_room_id_name_key;
update booking_source set fetched = url is not null;
alter table booking_source drop column url;
comment on column booking_source.fetched is 'whether the service fetches it from an address; else a client sends it';
comment on column booking_source.version is 'counts the calendars that were read and differed';
create unique index booking_source_name on booking_source (room_id, name) where retired_at is null;

-- Panel hours --------------------------------------------------------------------------------------------------------

create table panel_hours_question (
    id           uuid primary key,
    display_id   uuid        not null references display,
    value_id     bigint      not null unique references panel_hours,
    kind         text        not null check (kind in ('went-back', 'faster-than-the-clock', 'contradicted')),
    before_id    bigint      not null references panel_hours,
    after_id     bigint      references panel_hours,
    asked_at     timestamptz not null,
    dissolved_at timestamptz
);
comment on table panel_hours_question is 'a value that does not go with the one before it, until a person says what it is';
comment on column panel_hours_question.dissolved_at is 'when other values or answers had made it needless; null while it holds';
create index panel_hours_question_open on panel_hours_question (display_id) where dissolved_at is null;

create table panel_hours_answer (
    question_id  uuid primary key references panel_hours_question,
    value_id     bigint      not null references panel_hours,
    answer       text        not null check (answer in ('panel-replaced', 'counter-reset', 'typing-error', 'right')),
    corrected_id bigint      references panel_hours,
    note         text        check (length(note) <= 10000),
    answered_at  timestamptz not null,
    answered_by  text        not null,
    check (corrected_id is null or answer = 'typing-error')
);
comment on column panel_hours_answer.value_id is 'the value that the answer is about: the one asked about, or the one before it';
comment on column panel_hours_answer.corrected_id is 'the value entered in place of the mistyped one; null when nobody knows it';
create index panel_hours_answer_value on panel_hours_answer (value_id);

create index panel_hours_run on panel_hours (run_id) where run_id is not null;

create trigger history before update or delete on panel_hours_answer for each row execute function refuse_change();
create trigger history_whole before truncate on panel_hours_answer for each statement execute function refuse_change();
create trigger audit after insert on panel_hours_answer for each row execute function keep_audit('question_id');
create trigger audit after insert or update or delete on panel_hours_question for each row execute function keep_audit();

-- Looked up row by row as in the view before it; what was mistyped counts no longer.
create or replace view counted_panel_hours as
    select h.* from panel_hours h
    where (select w.run_id from run_withdrawal w where w.run_id = h.run_id) is null
      and not exists (select from panel_hours_answer a where a.value_id = h.id and a.answer = 'typing-error');
