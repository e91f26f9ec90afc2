-- Corrections of field meters: how the readings of one are turned into those of a reference instrument, on one display or on
-- a model. Readings stay as they were taken; a correction is applied when they are read. It is made once and withdrawn
-- once, never changed: a better one is another version.

create table instrument_correction (
    id               uuid primary key,
    instrument_id    uuid        not null references instrument,
    display_id       uuid        references display,
    model            text        check (length(model) between 1 and 200),
    version          integer     not null check (version > 0),
    reference_run_id uuid        not null references run,
    field_run_id     uuid        not null references run,
    keeps_luminance  boolean     not null,
    matrix           float8[]    not null check (cardinality(matrix) = 9),
    luminance_factor float8      not null check (luminance_factor > 0 and luminance_factor < 'infinity'),
    valid_from       timestamptz,
    note             text        check (length(note) <= 10000),
    recorded_at      timestamptz not null,
    recorded_by      text        not null,
    check (num_nonnulls(display_id, model) = 1),
    unique nulls not distinct (instrument_id, display_id, model, version)
);
comment on column instrument_correction.version is 'counted per instrument and place, from 1';
comment on column instrument_correction.keeps_luminance is 'chromaticity alone was taken from the reference';
comment on column instrument_correction.matrix is 'R = N M^-1 of the four-colour matrix method, row by row';
comment on column instrument_correction.valid_from is 'runs taken from then on; null: all';

create table instrument_correction_withdrawal (
    correction_id uuid primary key references instrument_correction,
    reason        text        not null check (length(reason) between 1 and 10000),
    withdrawn_at  timestamptz not null,
    withdrawn_by  text        not null
);

alter table finding add column corrections text[] not null default '{}';
comment on column finding.corrections is 'those of the runs that it rests on, by name and version';

do $$
declare
    t text;
begin
    foreach t in array array['instrument_correction', 'instrument_correction_withdrawal']
    loop
        execute format('create trigger history before update or delete on %I for each row execute function refuse_change()', t);
        execute format('create trigger history_whole before truncate on %I for each statement execute function refuse_change()', t);
    end loop;
end $$;

create trigger audit after insert on instrument_correction for each row execute function keep_audit();
create trigger audit after insert on instrument_correction_withdrawal
    for each row execute function keep_audit('correction_id');
