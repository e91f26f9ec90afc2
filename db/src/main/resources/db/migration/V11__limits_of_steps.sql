-- The tolerance sets that come with the book say from when on a step is told: a new revision of each, as it stands now, with
-- two limits more. The smallest step worth waking somebody for is the house's own choice, no published source.

create temporary table stepped_set on commit drop as
select s.id, s.version, limits.luminance, limits.white
from tolerance_set s
join (values ('6f1c0f5e-0000-4000-8000-000000000001'::uuid, 3.0, 0.003),
             ('6f1c0f5e-0000-4000-8000-000000000002'::uuid, 3.0, 0.003),
             ('6f1c0f5e-0000-4000-8000-000000000003'::uuid, 3.0, 0.003),
             ('6f1c0f5e-0000-4000-8000-000000000004'::uuid, 6.0, 0.006)) as limits (id, luminance, white) on limits.id = s.id;

insert into tolerance_set_revision (tolerance_set_id, revision, description, warm_up_minutes, recalibration_days,
                                    recalibration_panel_hours, hysteresis, conformance_probability, recorded_at, recorded_by)
select r.tolerance_set_id, r.revision + 1, r.description, r.warm_up_minutes, r.recalibration_days,
       r.recalibration_panel_hours, r.hysteresis, r.conformance_probability, now(), 'default'
from tolerance_set_revision r join stepped_set s on s.id = r.tolerance_set_id and s.version = r.revision;

insert into tolerance (tolerance_set_id, revision, metric, limit_value, basis, document, clause, note)
select t.tolerance_set_id, t.revision + 1, t.metric, t.limit_value, t.basis, t.document, t.clause, t.note
from tolerance t join stepped_set s on s.id = t.tolerance_set_id and s.version = t.revision;

insert into tolerance (tolerance_set_id, revision, metric, limit_value, basis)
select id, version + 1, 'step-luminance', luminance, 'house policy' from stepped_set
union all
select id, version + 1, 'step-white', white, 'house policy' from stepped_set;

update tolerance_set set version = version + 1 where id in (select id from stepped_set);
