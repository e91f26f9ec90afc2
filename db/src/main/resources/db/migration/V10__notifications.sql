-- Who is told of alerts and how, what is owed to whom, and what was sent. What an event of an alert owes to a channel is
-- written in the transaction of the event; messages are made of it and sent afterwards, again until they arrive.

create table channel (
    id                uuid primary key,
    name              text        not null unique check (length(name) between 1 and 200),
    kind              text        not null check (kind in ('email', 'webhook')),
    facility_id       uuid        references facility,
    causes            text[]      not null,
    escalations_only  boolean     not null,
    addresses         text[]      not null,
    url               text        check (length(url) between 1 and 2000),
    retired_at        timestamptz,
    retirement_reason text,
    version           bigint      not null default 0,
    check ((kind = 'email') = (cardinality(addresses) > 0)),
    check ((kind = 'webhook') = (url is not null))
);
comment on column channel.facility_id is 'null: alerts of all facilities';
comment on column channel.causes is 'none: alerts on any cause';
comment on column channel.escalations_only is 'told only of alerts that nobody acknowledged in time';

create table channel_secret (
    channel_id uuid primary key references channel,
    secret     bytea not null check (length(secret) between 24 and 64)
);
comment on table channel_secret is 'keys that sign webhooks; apart from channel, so that no audit entry holds one';

create table channel_turn (
    channel_id uuid primary key references channel,
    taken_by   uuid        not null,
    until      timestamptz not null
);
comment on table channel_turn is 'which instance of the service sends to a channel just now; by the clock of the database';

create table notification_settings (
    facility_id            uuid primary key references facility,
    escalate_after_minutes integer check (escalate_after_minutes > 0),
    remind_every_minutes   integer check (remind_every_minutes > 0),
    summary_over           integer not null check (summary_over > 0),
    gather_seconds         integer not null check (gather_seconds >= 0),
    version                bigint  not null
);
comment on column notification_settings.escalate_after_minutes is 'null: never';
comment on column notification_settings.remind_every_minutes is 'null: never';

create table quiet_period (
    id         uuid primary key,
    room_id    uuid        references room,
    display_id uuid        references display,
    reason     text        not null check (length(reason) between 1 and 10000),
    from_at    timestamptz not null,
    until_at   timestamptz not null,
    made_at    timestamptz not null,
    made_by    text        not null,
    ended_at   timestamptz,
    ended_by   text,
    settled_at timestamptz,
    check (num_nonnulls(room_id, display_id) = 1),
    check (until_at > from_at),
    check ((ended_at is null) = (ended_by is null))
);
comment on column quiet_period.ended_at is 'ended before its time';
comment on column quiet_period.settled_at is 'when those it had kept from were told what was still open; until then it holds';
create index quiet_period_room on quiet_period (room_id) where settled_at is null;
create index quiet_period_display on quiet_period (display_id) where settled_at is null;

create table message (
    id           uuid primary key,
    seq          bigint generated always as identity unique,
    channel_id   uuid        not null references channel,
    kind         text        not null check (kind in ('alert', 'summary', 'after-quiet', 'test')),
    heading      text        not null,
    body         text        not null,
    in_reply_to  text,
    created_at   timestamptz not null,
    not_before   timestamptz not null,
    attempts     integer     not null default 0,
    taken        text[]      not null default '{}',
    last_error   text,
    delivered_at timestamptz,
    given_up_at  timestamptz,
    check (delivered_at is null or given_up_at is null)
);
comment on column message.id is 'the same on every attempt, so that a receiver can tell repeats';
comment on column message.taken is 'addresses of mail that it reached already';
create index message_open on message (channel_id, seq) where delivered_at is null and given_up_at is null;
create index message_channel on message (channel_id, seq desc);

create table message_attempt (
    message_id uuid        not null references message,
    attempt    integer     not null,
    at         timestamptz not null,
    delivered  boolean     not null,
    answer     text        not null,
    primary key (message_id, attempt)
);

create table notification (
    id           uuid primary key,
    channel_id   uuid        not null references channel,
    alert_id     uuid        not null references alert,
    event_seq    bigint      not null references alert_event,
    state        text        not null check (state in ('waiting', 'quiet', 'in-message', 'left-out')),
    why          text        not null,
    quiet_id     uuid        references quiet_period,
    after_quiet  boolean     not null default false,
    created_at   timestamptz not null,
    not_before   timestamptz not null,
    message_id   uuid        references message,
    unique (channel_id, event_seq),
    check ((state = 'in-message') = (message_id is not null)),
    check (state <> 'quiet' or quiet_id is not null)
);
comment on table notification is 'what an event of an alert owes to a channel; at most once';
comment on column notification.why is 'for people: why it is sent, or why not';
create index notification_waiting on notification (channel_id, event_seq) where state = 'waiting';
create index notification_quiet on notification (quiet_id) where state = 'quiet';
create index notification_alert on notification (alert_id, channel_id, event_seq);
create index notification_message on notification (message_id);

create trigger history before update or delete on message_attempt for each row execute function refuse_change();
create trigger history_whole before truncate on message_attempt for each statement execute function refuse_change();

create trigger audit after insert or update or delete on channel for each row execute function keep_audit();
create trigger audit after insert or update or delete on quiet_period for each row execute function keep_audit();
create trigger audit after insert or update or delete on notification_settings
    for each row execute function keep_audit('facility_id');
