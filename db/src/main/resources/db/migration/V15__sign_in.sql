-- How people come onto the board: accounts with passwords, their sessions, what happened at sign-in, and who has to wait.

-- Accounts -----------------------------------------------------------------------------------------------------------
-- Audited row by row like tokens; the audit log leaves secret_hash out.

create table account (
    id              uuid primary key,
    name            text        not null check (length(name) between 1 and 100),
    holder          text        not null check (length(holder) between 1 and 200),
    role            text        not null check (role in ('engineer', 'calibrator', 'manager')),
    secret_hash     text        not null check (secret_hash like '$argon2id$%'),
    created_at      timestamptz not null,
    created_by      text        not null,
    password_set_at timestamptz not null,
    password_set_by text        not null,
    retired_at      timestamptz,
    retired_by      text,
    check ((retired_at is null) = (retired_by is null))
);
comment on column account.name is 'what its holder types to sign in, in any case';
comment on column account.secret_hash is 'Argon2id with its parameters and salt';
create unique index account_name on account (lower(name)) where retired_at is null;
create trigger audit after insert or update or delete on account for each row execute function keep_audit();

-- Sign-ins -----------------------------------------------------------------------------------------------------------
-- What was typed as a name is not kept where no account has it: people type passwords there.

create table sign_in (
    seq        bigint generated always as identity primary key,
    at         timestamptz not null,
    outcome    text        not null check (outcome in ('in', 'refused')),
    way        text        not null check (way in ('password', 'token', 'provider')),
    account_id uuid        references account,
    token_id   uuid        references token,
    holder     text        check (length(holder) <= 200),
    address    text        not null check (length(address) <= 100),
    check (outcome = 'refused' or holder is not null)
);
comment on table sign_in is 'each sign-in that was looked at; those that had to wait are not';
comment on column sign_in.holder is 'who came in, or whose account, token or name at the provider was tried; null where nobody is known';
create index sign_in_familiar on sign_in (account_id, address, at) where outcome = 'in';
create trigger history before update or delete on sign_in for each row execute function refuse_change();
create trigger history_whole before truncate on sign_in for each statement execute function refuse_change();
create trigger audit after insert on sign_in for each row execute function keep_audit('seq');

create table sign_in_wait (
    tried      bytea primary key check (length(tried) = 32),
    failures   integer     not null check (failures > 0),
    last_at    timestamptz not null,
    wait_until timestamptz
);
comment on table sign_in_wait is 'failures in a row by what they share; forgotten a day after the last one';
comment on column sign_in_wait.tried is 'SHA-256 of the name that was typed, of name and address, or of the address alone';
create index sign_in_wait_last on sign_in_wait (last_at);

-- Sessions -----------------------------------------------------------------------------------------------------------
-- As Spring Session (Apache licence 2.0) expects them; they are no part of the record, and nothing else refers to them.

create table spring_session (
    primary_id            char(36) not null constraint spring_session_pk primary key,
    session_id            char(36) not null,
    creation_time         bigint   not null,
    last_access_time      bigint   not null,
    max_inactive_interval int      not null,
    expiry_time           bigint   not null,
    principal_name        varchar(100)
);
create unique index spring_session_ix1 on spring_session (session_id);
create index spring_session_ix2 on spring_session (expiry_time);
create index spring_session_ix3 on spring_session (principal_name);

create table spring_session_attributes (
    session_primary_id char(36)     not null constraint spring_session_attributes_fk
                                    references spring_session on delete cascade,
    attribute_name     varchar(200) not null,
    attribute_bytes    bytea        not null,
    constraint spring_session_attributes_pk primary key (session_primary_id, attribute_name)
);

-- What changed, for open pages ---------------------------------------------------------------------------------------
-- Told when the transaction commits, to every instance that listens; the same words once per transaction. Never more than
-- what kind of thing and in which room: whoever hears it asks for the page, and the page says what that reader may see.

create function tell_board(kind text, room uuid) returns void language sql as $$
    select pg_notify('panelbook_board', kind || coalesce(' ' || room, ''))
$$;

create function tell_board_of_run() returns trigger language plpgsql as $$
begin
    perform tell_board('run', (select s.room_id from preset p join display_stay s on s.display_id = p.display_id
                               where p.id = new.preset_id and upper_inf(s.during)));
    return null;
end $$;

create function tell_board_of_alert() returns trigger language plpgsql as $$
begin
    perform tell_board('alert', (select room_id from alert where id = new.alert_id));
    return null;
end $$;

create function tell_board_of_visit() returns trigger language plpgsql as $$
begin
    perform tell_board('visit', new.room_id);
    return null;
end $$;

create trigger board after insert on run for each row execute function tell_board_of_run();
create trigger board after insert on alert_event for each row execute function tell_board_of_alert();
create trigger board after insert or update on visit for each row execute function tell_board_of_visit();
