-- Proofs: documents handed out that show the state of a room on a day.

create table proof (
    id             uuid primary key,
    room_id        uuid        not null references room,
    facility       text        not null,
    room           text        not null,
    day            date        not null,
    as_of          timestamptz not null,
    state          text        not null check (state in ('ready', 'ready-with-remarks', 'not-ready')),
    asked_at       timestamptz not null,
    asked_by       text        not null,
    content_digest text        not null check (content_digest ~ '^[0-9a-f]{64}$'),
    file_digest    text        not null check (file_digest ~ '^[0-9a-f]{64}$')
);
comment on table proof is 'a document handed out that shows the state of a room on a day';
comment on column proof.facility is 'name of the facility at as_of';
comment on column proof.room is 'name of the room at as_of';
comment on column proof.day is 'in the time zone of the room';
comment on column proof.as_of is 'the moment that all its figures are of';
comment on column proof.content_digest is 'SHA-256 of proof_file.content in UTF-8';
comment on column proof.file_digest is 'SHA-256 of proof_file.file';
create index proof_room on proof (room_id, asked_at desc, id desc);
create index proof_by_content on proof (content_digest);
create index proof_by_file on proof (file_digest);

-- Apart from proof, so that the audit log does not copy files.
create table proof_file (
    proof_id uuid  primary key references proof,
    content  text  not null,
    file     bytea not null
);
comment on column proof_file.content is 'what the document says: JSON in the canonical form of RFC 8785';
comment on column proof_file.file is 'the PDF, as it was handed out each time';

do $$
declare
    t text;
begin
    foreach t in array array['proof', 'proof_file'] loop
        execute format('create trigger history before update or delete on %I for each row execute function refuse_change()', t);
        execute format('create trigger history_whole before truncate on %I for each statement execute function refuse_change()', t);
    end loop;
end $$;
create trigger audit after insert on proof for each row execute function keep_audit();
