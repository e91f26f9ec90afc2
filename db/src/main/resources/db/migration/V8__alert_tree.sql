-- Causes form a tree: an alert on a cause holds back those on what follows from it.

alter table alert add column held_by uuid references alert check (held_by <> id);
comment on column alert.held_by is 'the alert that explains it; null while it speaks for itself';
create index alert_held_by on alert (held_by) where closed_at is null;

-- a room stands for the feed and whatever else its displays share
alter table alert drop constraint alert_subject_kind_check;
alter table alert add constraint alert_subject_kind_check check (subject_kind in ('preset', 'room', 'instrument'));

alter table alert_event drop constraint alert_event_kind_check;
alter table alert_event add constraint alert_event_kind_check
    check (kind in ('opened', 'updated', 'acknowledged', 'closed', 'reopened', 'held-back', 'released', 'reminded', 'escalated'));
alter table alert_event add column held_back boolean not null default false;
comment on column alert_event.held_back is 'another alert held it back then: nobody was to be woken';
