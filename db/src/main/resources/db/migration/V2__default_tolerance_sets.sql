-- The tolerance sets that come with the book. Where a published document gives a figure, it is named with its clause and
-- with how we know it; every other figure is the house's own choice and says so. All of them can be edited.

with sets (id, name, description, warm_up_minutes, recalibration_days, recalibration_panel_hours) as (
    values ('6f1c0f5e-0000-4000-8000-000000000001'::uuid, 'HDR grading',
            'Heroes and followers that HDR pictures are graded on.', 30, 60, 750),
           ('6f1c0f5e-0000-4000-8000-000000000002'::uuid, 'SDR grading',
            'Heroes and followers that SDR pictures are graded on.', 30, 90, 1500),
           ('6f1c0f5e-0000-4000-8000-000000000003'::uuid, 'Cinema review room',
            'Projected pictures at 48 cd/m2 in a review room.', 20, 90, 500),
           ('6f1c0f5e-0000-4000-8000-000000000004'::uuid, 'Client viewing',
            'Displays that clients look at and nobody decides on.', 15, 180, 3000)
), added as (
    insert into tolerance_set (id, name, version) select id, name, 0 from sets returning id
)
insert into tolerance_set_revision (tolerance_set_id, revision, description, warm_up_minutes, recalibration_days,
                                    recalibration_panel_hours, hysteresis, conformance_probability, recorded_at, recorded_by)
select id, 0, description, warm_up_minutes, recalibration_days, recalibration_panel_hours, 0.1, 0.95, now(), 'default'
from sets;

-- House policy, by set: HDR grading, SDR grading, cinema review room, client viewing.
insert into tolerance (tolerance_set_id, revision, metric, limit_value, basis)
select ('6f1c0f5e-0000-4000-8000-00000000000' || n)::uuid, 0, metric, limits[n], 'house policy'
from (values ('white-luminance-error',        array [5, 5, null, 10]),
             ('white-chromaticity-error',     array [0.005, 0.005, null, 0.010]),
             ('grey-luminance-error',         array [10, 10, 10, 20]),
             ('grey-chromaticity-error',      array [0.008, 0.008, 0.010, 0.016]),
             ('delta-e-itp-mean',             array [4, 4, 5, 8]),
             ('delta-e-itp-p95',              array [10, 10, 12, 18]),
             ('delta-e-itp-max',              array [16, 16, 20, 30]),
             ('delta-e-2000-mean',            array [1.5, 1.5, 2, 3]),
             ('delta-e-2000-max',             array [5, 5, 6, 9]),
             ('gamut-coverage',               array [null, 95, 95, 85]),
             ('own-drift-luminance',          array [5, 5, 5, 10]),
             ('own-drift-white',              array [0.004, 0.004, 0.004, 0.008]),
             ('own-drift-black',              array [0.005, 0.02, 0.02, 0.1]),
             ('own-drift-delta-e-itp',        array [12, 12, 14, 24]),
             ('hero-drift-white',             array [0.004, 0.004, 0.004, 0.008]),
             ('hero-drift-luminance',         array [5, 5, 5, 10]),
             ('hero-drift-grey-white',        array [0.006, 0.006, 0.006, 0.012]),
             ('hero-drift-grey-luminance',    array [8, 8, 8, 16])) as policy (metric, limits),
     generate_series(1, 4) as n
where limits[n] is not null;

insert into tolerance (tolerance_set_id, revision, metric, limit_value, basis, document, clause, note)
values ('6f1c0f5e-0000-4000-8000-000000000001', 0, 'black-luminance', 0.005, 'secondary',
        'ITU-R BT.2100-2', 'Table 3', 'Reference display black, set with PLUGE.'),
       ('6f1c0f5e-0000-4000-8000-000000000002', 0, 'black-luminance', 0.1, 'memory',
        'EBU Tech 3320 (v2/v3 SDR part)', '5.2 / 1.5.2', 'Grade 1, from memory; editions differ.'),
       ('6f1c0f5e-0000-4000-8000-000000000002', 0, 'contrast', 1000, 'memory',
        'EBU Tech 3320 (v2/v3 SDR part)', '5.3 / 1.5.3', 'Grade 1, full screen, from memory.'),
       ('6f1c0f5e-0000-4000-8000-000000000003', 0, 'white-luminance-error', 7.3, 'secondary',
        'SMPTE ST 431-1:2006', '5', 'Review room 48.0 +/- 3.5 cd/m2, as per cent of the aim.'),
       ('6f1c0f5e-0000-4000-8000-000000000003', 0, 'white-chromaticity-error', 0.0011, 'secondary',
        'SMPTE ST 431-1:2006', '5',
        'Review room x, y +/- 0.002 each: this circle in u''v'' lies inside that square.'),
       ('6f1c0f5e-0000-4000-8000-000000000003', 0, 'contrast', 1500, 'memory',
        'SMPTE RP 431-2:2011', 'tables', 'Sequential contrast, review room, from memory.');

-- Every set asks for a certificate that holds and for matches that rest on the baselines in force.
insert into tolerance (tolerance_set_id, revision, metric, limit_value, basis)
select ('6f1c0f5e-0000-4000-8000-00000000000' || n)::uuid, 0, metric, 0, 'house policy'
from generate_series(1, 4) as n, (values ('certificate-days'), ('matches-in-question')) as asked (metric);
