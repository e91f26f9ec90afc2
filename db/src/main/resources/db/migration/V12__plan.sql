-- Who calibrates when, which rooms are free, and the visits laid into both.

create table room_planning (
    room_id    uuid    primary key references room,
    importance integer not null check (importance between 1 and 10),
    version    bigint  not null default 0
);
comment on table room_planning is 'rooms not listed weigh 1';

create table calibrator (
    id               uuid primary key,
    name             text   not null unique check (length(name) between 1 and 200),
    home_facility_id uuid   not null references facility,
    skills           jsonb  not null check (jsonb_typeof(skills) = 'array'),
    week             jsonb  not null check (jsonb_typeof(week) = 'array'),
    retired_at       timestamptz,
    retirement_reason text  check (length(retirement_reason) <= 10000),
    version          bigint not null default 0
);
comment on column calibrator.skills is 'panel technologies that they calibrate; none means all';
comment on column calibrator.week is 'working hours by day of the week, in the time zone of the home facility';

create table calibrator_absence (
    id            uuid primary key,
    calibrator_id uuid        not null references calibrator,
    from_day      date        not null,
    to_day        date        not null,
    reason        text        check (length(reason) <= 10000),
    recorded_at   timestamptz not null,
    recorded_by   text        not null,
    cancelled_at  timestamptz,
    cancelled_by  text,
    check (from_day <= to_day)
);
comment on column calibrator_absence.to_day is 'the last day away';
create index calibrator_absence_calibrator on calibrator_absence (calibrator_id, from_day) where cancelled_at is null;

create table holiday (
    id           uuid primary key,
    facility_id  uuid        references facility,
    day          date        not null,
    name         text        not null check (length(name) between 1 and 200),
    recorded_at  timestamptz not null,
    recorded_by  text        not null,
    cancelled_at timestamptz,
    cancelled_by text
);
comment on column holiday.facility_id is 'null for every facility';

create table travel_time (
    one_facility_id   uuid    not null references facility,
    other_facility_id uuid    not null references facility,
    minutes           integer not null check (minutes between 0 and 2880),
    version           bigint  not null default 0,
    primary key (one_facility_id, other_facility_id),
    check (one_facility_id < other_facility_id)
);

create table work_duration (
    id      uuid primary key,
    model   text    check (length(model) between 1 and 200),
    work    text    not null check (work in ('warm-up', 'recalibration', 'match')),
    minutes integer not null check (minutes between 0 and 1440),
    version bigint  not null default 0,
    unique nulls not distinct (model, work)
);
comment on column work_duration.model is 'null for the figure of the house';

create table booking_source (
    id           uuid primary key,
    room_id      uuid   not null references room,
    name         text   not null check (length(name) between 1 and 200),
    url          text   check (length(url) <= 2000),
    etag         text,
    last_read_at timestamptz,
    last_tried_at timestamptz,
    last_error   text,
    retired_at   timestamptz,
    version      bigint not null default 0,
    unique (room_id, name)
);
comment on column booking_source.url is 'null when a client sends the calendar';

create table booking (
    source_id uuid        not null references booking_source,
    uid       text        not null,
    starts_at timestamptz not null,
    ends_at   timestamptz not null,
    title     text,
    primary key (source_id, uid, starts_at),
    check (starts_at < ends_at)
);
comment on table booking is 'what the source said last; each occurrence of what recurs is a row';
create index booking_when on booking (source_id, starts_at);

create table plan (
    id          uuid primary key,
    facility_id uuid        references facility,
    from_day    date        not null,
    until_day   date        not null,
    summary     jsonb       not null,
    made_at     timestamptz not null,
    made_by     text        not null
);
comment on column plan.summary is 'what was answered when it was made';

create table visit (
    id            uuid primary key,
    room_id       uuid        not null references room,
    calibrator_id uuid        not null references calibrator,
    warm_up_from  timestamptz not null,
    starts_at     timestamptz not null,
    ends_at       timestamptz not null,
    state         text        not null check (state in ('proposed', 'confirmed', 'done', 'dropped')),
    pinned        boolean     not null default false,
    work          jsonb       not null,
    reason        text        check (length(reason) <= 10000),
    plan_id       uuid        references plan,
    made_at       timestamptz not null,
    made_by       text        not null,
    changed_at    timestamptz not null,
    changed_by    text        not null,
    version       bigint      not null default 0,
    check (warm_up_from <= starts_at and starts_at < ends_at),
    constraint calibrator_makes_one_visit_at_a_time exclude using gist
        (calibrator_id with =, tstzrange(starts_at, ends_at) with &&) where (state in ('proposed', 'confirmed')),
    constraint room_has_one_visit_at_a_time exclude using gist
        (room_id with =, tstzrange(warm_up_from, ends_at) with &&) where (state in ('proposed', 'confirmed'))
);
comment on column visit.pinned is 'a person fixed its time: no plan moves it';
comment on column visit.work is 'presets in the order of the work, the hero first, each with what is done, the minutes and why';
create index visit_calibrator on visit (calibrator_id, starts_at);
create index visit_room on visit (room_id, starts_at);

create table calendar_feed (
    id            uuid primary key,
    calibrator_id uuid        references calibrator,
    room_id       uuid        references room,
    secret_hash   bytea       not null unique check (length(secret_hash) = 32),
    made_at       timestamptz not null,
    made_by       text        not null,
    revoked_at    timestamptz,
    revoked_by    text,
    check ((calibrator_id is null) <> (room_id is null))
);
comment on column calendar_feed.secret_hash is 'SHA-256 of the secret in its address, which nobody can show again';

do $$
declare
    t text;
begin
    foreach t in array array['calibrator', 'calibrator_absence', 'holiday', 'work_duration', 'booking_source', 'plan', 'visit',
                             'calendar_feed']
    loop
        execute format('create trigger audit after insert or update or delete on %I for each row execute function keep_audit()', t);
    end loop;
end $$;
create trigger audit after insert or update or delete on travel_time for each row execute function keep_audit('one_facility_id');
create trigger audit after insert or update or delete on room_planning for each row execute function keep_audit('room_id');
