-- The book: what stands where, what it was calibrated to, what was measured, what was judged and what was said about it.
-- Two kinds of tables. Those that people edit carry a version and are audited row by row. Those that keep history
-- refuse update and delete; a stay, a hero and a baseline may only be ended. The actor of a change is the setting
-- panelbook.actor of the transaction.

create extension if not exists btree_gist;

-- Guards -------------------------------------------------------------------------------------------------------------

create function refuse_change() returns trigger language plpgsql as $$
begin
    raise exception '% is history: its rows are neither changed nor deleted', tg_table_name
        using errcode = 'restrict_violation', hint = 'Add a row that says what holds now.';
end $$;

create function only_end() returns trigger language plpgsql as $$
begin
    if tg_op = 'UPDATE'
        and to_jsonb(new) - 'during' = to_jsonb(old) - 'during'
        and lower(new.during) = lower(old.during)
        and (upper_inf(old.during) or upper(new.during) < upper(old.during))
        and not isempty(new.during)
    then
        return new;
    end if;
    raise exception '% is history: a row may only be ended', tg_table_name
        using errcode = 'restrict_violation', hint = 'End the row in force and add the one that follows it.';
end $$;

create function actor() returns text language sql stable as $$
    select coalesce(nullif(current_setting('panelbook.actor', true), ''), 'database: ' || session_user)
$$;

create table audit_entry (
    seq          bigint generated always as identity primary key,
    at           timestamptz not null default clock_timestamp(),
    actor        text        not null,
    action       text        not null check (action in ('add', 'change', 'delete')),
    subject_kind text        not null,
    subject_id   text        not null,
    before       jsonb,
    after        jsonb
);
create index audit_entry_subject on audit_entry (subject_kind, subject_id, seq);

create function keep_audit() returns trigger language plpgsql as $$
declare
    was jsonb := case when tg_op <> 'INSERT' then to_jsonb(old) - 'secret_hash' - 'digest' end;
    now_is jsonb := case when tg_op <> 'DELETE' then to_jsonb(new) - 'secret_hash' - 'digest' end;
    row_is jsonb := coalesce(now_is, was);
begin
    if was is not distinct from now_is then
        return null;
    end if;
    insert into audit_entry (actor, action, subject_kind, subject_id, before, after)
    values (actor(),
            case tg_op when 'INSERT' then 'add' when 'UPDATE' then 'change' else 'delete' end,
            tg_table_name,
            coalesce(row_is ->> 'id', row_is ->> (tg_argv[0])),
            was, now_is);
    return null;
end $$;

-- Access -------------------------------------------------------------------------------------------------------------

create table token (
    id          uuid primary key,
    holder      text        not null check (length(holder) between 1 and 200),
    role        text        not null check (role in ('engineer', 'calibrator', 'manager', 'probe')),
    secret_hash bytea       not null unique check (length(secret_hash) = 32),
    created_at  timestamptz not null,
    created_by  text        not null,
    expires_at  timestamptz,
    revoked_at  timestamptz,
    revoked_by  text,
    check ((revoked_at is null) = (revoked_by is null))
);

-- Fleet --------------------------------------------------------------------------------------------------------------

create table facility (
    id         uuid primary key,
    name       text        not null unique check (length(name) between 1 and 200),
    time_zone  text        not null,
    retired_at timestamptz,
    version    bigint      not null default 0
);

create table room (
    id          uuid primary key,
    facility_id uuid   not null references facility,
    name        text   not null check (length(name) between 1 and 200),
    time_zone   text   not null,
    retired_at  timestamptz,
    version     bigint not null default 0,
    unique (facility_id, name),
    unique (id, facility_id)
);

create table display (
    id               uuid primary key,
    facility_id      uuid   not null references facility,
    name             text   not null check (length(name) between 1 and 200),
    model            text   not null check (length(model) between 1 and 200),
    panel_technology text   not null check (length(panel_technology) between 1 and 100),
    serial_number    text   check (length(serial_number) <= 200),
    notes            text   check (length(notes) <= 10000),
    retired_at       timestamptz,
    version          bigint not null default 0,
    unique (facility_id, name)
);

create table display_stay (
    id         uuid primary key,
    display_id uuid        not null references display,
    room_id    uuid        not null references room,
    during     tstzrange   not null check (not isempty(during) and not lower_inf(during)),
    reason     text,
    moved_by   text        not null,
    moved_at   timestamptz not null,
    constraint display_stands_in_one_room_at_a_time exclude using gist (display_id with =, during with &&)
);
create index display_stay_room on display_stay (room_id) where upper_inf(during);
create index display_stay_display on display_stay (display_id) where upper_inf(during);

create table tolerance_set (
    id         uuid primary key,
    name       text   not null unique check (length(name) between 1 and 200),
    retired_at timestamptz,
    version    bigint not null default 0
);

create table tolerance_set_revision (
    tolerance_set_id          uuid        not null references tolerance_set,
    revision                  bigint      not null,
    description               text        not null,
    warm_up_minutes           integer     not null check (warm_up_minutes between 0 and 1440),
    recalibration_days        integer     check (recalibration_days > 0),
    recalibration_panel_hours integer     check (recalibration_panel_hours > 0),
    hysteresis                float8      not null check (hysteresis >= 0 and hysteresis < 1),
    conformance_probability   float8      not null check (conformance_probability >= 0.5 and conformance_probability < 1),
    recorded_at               timestamptz not null,
    recorded_by               text        not null,
    primary key (tolerance_set_id, revision)
);

create table tolerance (
    tolerance_set_id uuid   not null,
    revision         bigint not null,
    metric           text   not null,
    limit_value      float8 not null check (limit_value >= 0 and limit_value < 'infinity'),
    basis            text   not null check (basis in ('text', 'secondary', 'memory', 'house policy')),
    document         text,
    clause           text,
    note             text,
    primary key (tolerance_set_id, revision, metric),
    foreign key (tolerance_set_id, revision) references tolerance_set_revision,
    check (basis = 'house policy' or document is not null)
);

create table target (
    id         uuid primary key,
    name       text   not null unique check (length(name) between 1 and 200),
    retired_at timestamptz,
    version    bigint not null default 0
);

create table target_revision (
    target_id        uuid        not null references target,
    revision         bigint      not null,
    red_x            float8      not null,
    red_y            float8      not null check (red_y > 0),
    green_x          float8      not null,
    green_y          float8      not null check (green_y > 0),
    blue_x           float8      not null,
    blue_y           float8      not null check (blue_y > 0),
    white_x          float8      not null,
    white_y          float8      not null check (white_y > 0),
    eotf             text        not null check (eotf in ('pq', 'hlg', 'bt1886', 'power')),
    gamma            float8      check (gamma > 0),
    signal_range     text        not null check (signal_range in ('full', 'narrow')),
    bit_depth        integer     not null check (bit_depth between 8 and 16),
    peak_luminance   float8      not null check (peak_luminance > 0 and peak_luminance <= 10000),
    black_luminance  float8      not null check (black_luminance >= 0),
    tolerance_set_id uuid        not null references tolerance_set,
    recorded_at      timestamptz not null,
    recorded_by      text        not null,
    primary key (target_id, revision),
    check (black_luminance < peak_luminance),
    check ((eotf = 'power') = (gamma is not null))
);

create table preset (
    id         uuid primary key,
    display_id uuid   not null references display,
    name       text   not null check (length(name) between 1 and 200),
    target_id  uuid   not null references target,
    retired_at timestamptz,
    version    bigint not null default 0,
    unique (display_id, name),
    unique (id, target_id)
);

create table hero (
    id        uuid primary key,
    room_id   uuid        not null references room,
    target_id uuid        not null,
    preset_id uuid        not null,
    during    tstzrange   not null check (not isempty(during) and not lower_inf(during)),
    named_by  text        not null,
    named_at  timestamptz not null,
    foreign key (preset_id, target_id) references preset (id, target_id),
    constraint room_has_one_hero_per_target exclude using gist (room_id with =, target_id with =, during with &&)
);
create index hero_preset on hero (preset_id) where upper_inf(during);
create index hero_room on hero (room_id, target_id) where upper_inf(during);

-- Instruments --------------------------------------------------------------------------------------------------------

create table instrument (
    id                       uuid primary key,
    name                     text   not null unique check (length(name) between 1 and 200),
    kind                     text   not null check (kind in ('colorimeter', 'spectroradiometer')),
    serial_number            text   check (length(serial_number) <= 200),
    luminance_uncertainty    float8 not null check (luminance_uncertainty >= 0 and luminance_uncertainty < 100),
    luminance_repeatability  float8 not null check (luminance_repeatability >= 0 and luminance_repeatability < 100),
    chromaticity_uncertainty float8 not null check (chromaticity_uncertainty >= 0 and chromaticity_uncertainty < 1),
    chromaticity_repeatability float8 not null check (chromaticity_repeatability >= 0 and chromaticity_repeatability < 1),
    luminance_floor          float8 not null check (luminance_floor >= 0 and luminance_floor < 100),
    retired_at               timestamptz,
    version                  bigint not null default 0
);
comment on column instrument.luminance_uncertainty is 'expanded, k = 2, per cent';
comment on column instrument.luminance_repeatability is 'standard deviation, per cent';
comment on column instrument.chromaticity_uncertainty is 'expanded, k = 2, in each of u'' and v''';
comment on column instrument.chromaticity_repeatability is 'standard deviation, in each of u'' and v''';
comment on column instrument.luminance_floor is 'standard deviation of a reading of black, cd/m2';

create table instrument_certificate (
    id            uuid primary key,
    instrument_id uuid        not null references instrument,
    number        text        not null check (length(number) between 1 and 200),
    issued_on     date        not null,
    expires_on    date        not null,
    recorded_at   timestamptz not null,
    recorded_by   text        not null,
    unique (instrument_id, number),
    check (issued_on <= expires_on)
);

-- Runs ---------------------------------------------------------------------------------------------------------------

create table run (
    id                      uuid primary key,
    preset_id               uuid        not null references preset,
    instrument_id           uuid        not null references instrument,
    purpose                 text        not null check (purpose in ('as-found', 'as-left', 'check', 'match')),
    operator                text        not null check (length(operator) between 1 and 200),
    taken_at                timestamptz not null,
    panel_hours             float8      check (panel_hours >= 0 and panel_hours < 'infinity'),
    minutes_since_power_on  integer     check (minutes_since_power_on >= 0),
    ambient_illuminance_lux float8      check (ambient_illuminance_lux >= 0 and ambient_illuminance_lux < 'infinity'),
    warmed_up               boolean,
    file_name               text,
    remarks                 text        check (length(remarks) <= 10000),
    reading_count           integer     not null check (reading_count > 0),
    digest                  bytea       not null check (length(digest) = 32),
    received_at             timestamptz not null,
    received_from           text        not null,
    unique (id, preset_id)
);
comment on column run.warmed_up is 'null when the time since power-on was not given';
create index run_preset on run (preset_id, taken_at desc, received_at desc);
create index run_instrument on run (instrument_id, taken_at desc, received_at desc);
create index run_taken on run (taken_at desc, id desc);

create table reading (
    run_id uuid    not null references run,
    red    integer not null check (red between 0 and 65535),
    green  integer not null check (green between 0 and 65535),
    blue   integer not null check (blue between 0 and 65535),
    seq    integer not null,
    x      float8  not null check (x >= 0 and x < 'infinity'),
    y      float8  not null check (y >= 0 and y < 'infinity'),
    z      float8  not null check (z >= 0 and z < 'infinity'),
    primary key (run_id, red, green, blue)
);

create table run_answer (
    run_id uuid primary key references run,
    answer jsonb not null
);

create table panel_hours (
    id          bigint generated always as identity primary key,
    display_id  uuid        not null references display,
    at          timestamptz not null,
    hours       float8      not null check (hours >= 0 and hours < 'infinity'),
    run_id      uuid        references run,
    note        text,
    recorded_at timestamptz not null,
    recorded_by text        not null
);
create index panel_hours_display on panel_hours (display_id, at desc, id desc);

create table baseline (
    id          uuid primary key,
    preset_id   uuid        not null,
    run_id      uuid        not null unique,
    during      tstzrange   not null check (not isempty(during) and not lower_inf(during)),
    reason      text,
    declared_by text        not null,
    declared_at timestamptz not null,
    foreign key (run_id, preset_id) references run (id, preset_id),
    constraint preset_has_one_baseline_at_a_time exclude using gist (preset_id with =, during with &&)
);
create index baseline_preset on baseline (preset_id) where upper_inf(during);

-- Matching -----------------------------------------------------------------------------------------------------------

create table match (
    id                   uuid primary key,
    follower_preset_id   uuid        not null,
    hero_preset_id       uuid        not null,
    operator             text        not null check (length(operator) between 1 and 200),
    follower_run_id      uuid        not null,
    hero_run_id          uuid        not null,
    follower_baseline_id uuid        references baseline,
    hero_baseline_id     uuid        references baseline,
    white_du             float8      not null,
    white_dv             float8      not null,
    luminance_ln_ratio   float8      not null,
    material             text        check (length(material) <= 10000),
    remarks              text        check (length(remarks) <= 10000),
    signed_at            timestamptz not null,
    recorded_at          timestamptz not null,
    recorded_by          text        not null,
    foreign key (follower_run_id, follower_preset_id) references run (id, preset_id),
    foreign key (hero_run_id, hero_preset_id) references run (id, preset_id),
    check (follower_preset_id <> hero_preset_id)
);
comment on column match.white_du is 'agreed offset, follower - hero, CIE 1976 u''';
comment on column match.luminance_ln_ratio is 'agreed offset, ln(follower / hero)';
create index match_follower on match (follower_preset_id, operator, signed_at desc);
create index match_hero on match (hero_preset_id);
create index match_follower_run on match (follower_run_id);
create index match_hero_run on match (hero_run_id);

create table trim (
    match_id uuid    not null references match,
    control  text    not null check (length(control) between 1 and 100),
    level    text    not null check (length(level) between 1 and 100),
    clicks   integer not null check (clicks between -100000 and 100000),
    primary key (match_id, control, level)
);

-- Assessment ---------------------------------------------------------------------------------------------------------

create table finding (
    id                     uuid primary key,
    preset_id              uuid        not null references preset,
    run_id                 uuid        references run,
    match_id               uuid        references match,
    instrument_id          uuid        references instrument,
    rule                   text        not null,
    metric                 text        not null,
    value                  float8      not null,
    limit_value            float8      not null,
    uncertainty            float8,
    conformance            float8      check (conformance between 0 and 1),
    decision               text        not null check (decision in ('within', 'undecided', 'beyond')),
    clear                  boolean     not null,
    explanation            text        not null,
    readings               jsonb       not null,
    detail                 jsonb,
    tolerance_set_id       uuid        not null,
    tolerance_set_revision bigint      not null,
    target_revision        bigint      not null,
    assessed_at            timestamptz not null,
    foreign key (tolerance_set_id, tolerance_set_revision) references tolerance_set_revision
);
comment on column finding.clear is 'so far inside the limit that an alert it holds open may close';
create index finding_preset on finding (preset_id, assessed_at desc);
create index finding_run on finding (run_id);

-- Which finding of each kind holds now: a view kept by the service, made again from finding at any time.
create table standing_finding (
    preset_id  uuid not null references preset,
    slot       text not null,
    finding_id uuid not null references finding,
    decision   text not null,
    primary key (preset_id, slot)
);
create index standing_finding_not_within on standing_finding (preset_id) where decision <> 'within';

-- Alerts -------------------------------------------------------------------------------------------------------------

create table alert (
    id              uuid primary key,
    cause           text        not null,
    subject_kind    text        not null check (subject_kind in ('preset', 'instrument')),
    subject_id      uuid        not null,
    facility_id     uuid        references facility,
    room_id         uuid        references room,
    headline        text        not null,
    detail          jsonb       not null,
    evidence        text        not null,
    opened_at       timestamptz not null,
    updated_at      timestamptz not null,
    acknowledged_at timestamptz,
    closed_at       timestamptz,
    settled         boolean     not null default false,
    version         bigint      not null default 0
);
comment on column alert.evidence is 'what it rests on: a run, a baseline, a certificate';
comment on column alert.settled is 'closed by a person: the same evidence opens none again';
create unique index alert_open_once_per_cause on alert (cause, subject_id) where closed_at is null;
create index alert_room_open on alert (room_id) where closed_at is null;
create index alert_subject on alert (subject_id, opened_at desc);
create index alert_opened on alert (opened_at desc, id desc);
create index alert_unclosed on alert (opened_at desc, id desc) where closed_at is null;

create table alert_event (
    seq      bigint generated always as identity primary key,
    alert_id uuid        not null references alert,
    kind     text        not null check (kind in ('opened', 'updated', 'acknowledged', 'closed')),
    at       timestamptz not null,
    actor    text        not null,
    note     text,
    headline text        not null,
    detail   jsonb       not null
);
create index alert_event_alert on alert_event (alert_id, seq);

-- What guards what ---------------------------------------------------------------------------------------------------

do $$
declare
    t text;
begin
    foreach t in array array['audit_entry', 'tolerance_set_revision', 'tolerance', 'target_revision',
                             'instrument_certificate', 'run', 'reading', 'run_answer', 'panel_hours', 'match', 'trim',
                             'finding', 'alert_event']
    loop
        execute format('create trigger history before update or delete on %I for each row execute function refuse_change()', t);
        execute format('create trigger history_whole before truncate on %I for each statement execute function refuse_change()', t);
    end loop;
    foreach t in array array['display_stay', 'hero', 'baseline']
    loop
        execute format('create trigger history before update or delete on %I for each row execute function only_end()', t);
        execute format('create trigger history_whole before truncate on %I for each statement execute function refuse_change()', t);
    end loop;
    foreach t in array array['token', 'facility', 'room', 'display', 'display_stay', 'tolerance_set', 'target', 'preset',
                             'hero', 'instrument', 'instrument_certificate', 'run', 'panel_hours', 'baseline', 'match']
    loop
        execute format('create trigger audit after insert or update or delete on %I for each row execute function keep_audit()', t);
    end loop;
    create trigger audit after insert on tolerance_set_revision for each row execute function keep_audit('tolerance_set_id');
    create trigger audit after insert on target_revision for each row execute function keep_audit('target_id');
    create trigger audit after insert on tolerance for each row execute function keep_audit('tolerance_set_id');
    create trigger audit after insert on trim for each row execute function keep_audit('match_id');
    create trigger audit after insert on alert_event for each row execute function keep_audit('alert_id');
end $$;
