-- What happens in the room: a match from its opening to its end, step by step. Nothing here is changed or deleted, but the
-- table of advice, which a house edits.

create table match_story (
    id                               uuid primary key,
    follower_preset_id               uuid        not null references preset,
    hero_preset_id                   uuid        not null references preset,
    operator                         text        not null check (length(operator) between 1 and 200),
    instrument_id                    uuid        references instrument,
    follower_minutes_since_power_on  integer     check (follower_minutes_since_power_on >= 0),
    hero_minutes_since_power_on      integer     check (hero_minutes_since_power_on >= 0),
    lights_at_viewing_level          boolean,
    starting_trims                   jsonb       not null,
    conditions                       jsonb       not null,
    advice                           jsonb       not null,
    opened_at                        timestamptz not null,
    recorded_at                      timestamptz not null,
    recorded_by                      text        not null,
    check (follower_preset_id <> hero_preset_id)
);
comment on column match_story.conditions is 'what had to be true, as it was at the opening';
create index match_story_follower on match_story (follower_preset_id, opened_at desc);
create index match_story_hero on match_story (hero_preset_id);

create table match_step (
    story_id    uuid        not null references match_story,
    number      integer     not null check (number >= 1),
    id          uuid        not null unique,
    kind        text        not null check (kind in ('observation', 'trim', 'verdict', 'reading', 'return', 'override', 'note')),
    look        text,
    place       text,
    colour      text        check (length(colour) <= 200),
    material    text        check (length(material) <= 10000),
    control     text        check (length(control) between 1 and 100),
    level       text        check (length(level) between 1 and 100),
    clicks      integer     check (clicks between -100000 and 100000 and clicks <> 0),
    verdict     text        check (verdict in ('better', 'worse', 'same')),
    run_id      uuid        references run,
    return_to   integer     check (return_to >= 0),
    note        text        check (length(note) <= 10000),
    at          timestamptz not null,
    recorded_at timestamptz not null,
    recorded_by text        not null,
    primary key (story_id, number),
    check (kind <> 'observation' or look is not null and place is not null),
    check (kind <> 'trim' or control is not null and level is not null and clicks is not null),
    check (kind <> 'verdict' or verdict is not null),
    check (kind <> 'reading' or run_id is not null),
    check (kind <> 'return' or return_to < number),
    check (kind <> 'override' or control is not null and level is not null and note is not null),
    check (kind <> 'note' or note is not null)
);
comment on column match_step.clicks is 'change made by this step';
create index match_step_run on match_step (run_id);

create table match_given_up (
    story_id    uuid primary key references match_story,
    reason      text        not null check (length(reason) between 1 and 10000),
    given_up_at timestamptz not null,
    given_up_by text        not null
);

-- An operator may accept a match without closing runs: then no offset was agreed.
alter table match
    alter column follower_run_id drop not null,
    alter column hero_run_id drop not null,
    alter column white_du drop not null,
    alter column white_dv drop not null,
    alter column luminance_ln_ratio drop not null,
    add column story_id uuid references match_story,
    add constraint measured_or_not check (
        num_nulls(follower_run_id, hero_run_id, white_du, white_dv, luminance_ln_ratio) in (0, 5));
create index match_story_of on match (story_id);

create table control_range (
    id          uuid primary key,
    display_id  uuid        not null references display,
    control     text        not null check (length(control) between 1 and 100),
    level       text        not null check (length(level) between 1 and 100),
    least       integer     not null check (least between -100000 and 0),
    most        integer     not null check (most between 0 and 100000),
    recorded_at timestamptz not null,
    recorded_by text        not null
);
comment on column control_range.least is 'clicks from the calibrated setting';
create index control_range_display on control_range (display_id, control, level, recorded_at desc);

create table advice (
    id            uuid primary key,
    moment        text        not null check (moment in ('opening', 'observation', 'trim', 'gain-raised', 'verdict',
                                                         'big-difference', 'sign-off')),
    look          text,
    place         text,
    first_control text        check (length(first_control) between 1 and 100),
    text          text        not null check (length(text) between 1 and 2000),
    basis         text        not null check (length(basis) between 1 and 1000),
    retired_at    timestamptz,
    retirement_reason text,
    version       bigint      not null default 0,
    check (moment = 'observation' or look is null and place is null and first_control is null)
);

insert into advice (id, moment, look, place, first_control, text, basis) values
    ('f01d34d3-12e0-53c8-9453-58344052f7eb', 'opening', null, null, null,
     'Look at many shots before and after each change: one control moves the whole picture.',
     'common practice, no published source'),
    ('e0f6e793-ad30-55ba-8a32-2f8182a4a245', 'opening', null, null, null,
     'Let the operator look first, from the seat they work in, with the room lit as they work in it.',
     'common practice, no published source'),
    ('d62ec6f0-95f3-5ca4-84e1-d4494035e127', 'big-difference', null, null, null,
     'A big, odd difference is a fault of the signal path until that is ruled out: check range, curve and converters of both feeds before any trim.',
     'common practice, no published source'),
    ('8b3de682-46aa-5c09-b864-2f683dc8f26a', 'observation', 'redder', 'whole-image', 'gain.red',
     'A cast on the whole image points at white balance: try the gain of red down, on a bright neutral first.',
     'common practice, no published source'),
    ('63a369ca-a132-5149-8332-037f115c44fe', 'observation', 'greener', 'whole-image', 'gain.green',
     'A cast on the whole image points at white balance: try the gain of green down, on a bright neutral first.',
     'common practice, no published source'),
    ('33ca98bc-c895-5744-b1aa-50a7f4ac2aa8', 'observation', 'bluer', 'whole-image', 'gain.blue',
     'A cast on the whole image points at white balance: try the gain of blue down, on a bright neutral first.',
     'common practice, no published source'),
    ('6c07dc46-a506-5a6f-9794-14088685bfb1', 'observation', 'more-cyan', 'whole-image', 'gain.red',
     'A cast on the whole image points at white balance: cyan is too little red, or green and blue both too high.',
     'common practice, no published source'),
    ('eed9f460-e5b7-5d7e-9622-cae46f5c3821', 'observation', 'more-magenta', 'whole-image', 'gain.green',
     'A cast on the whole image points at white balance: magenta is too little green, or red and blue both too high.',
     'common practice, no published source'),
    ('98c518d2-1bd2-56c8-9061-4312d9290e7f', 'observation', 'yellower', 'whole-image', 'gain.blue',
     'A cast on the whole image points at white balance: yellow is too little blue, or red and green both too high.',
     'common practice, no published source'),
    ('761991bb-aa4a-5785-a4d7-80db6270e624', 'observation', 'redder', 'shadows', 'bias.red',
     'A cast confined to the dark half points at the bias controls: try the bias of red down.',
     'common practice, no published source'),
    ('9dfb94e6-6f82-5c13-84e3-75c583651758', 'observation', 'greener', 'shadows', 'bias.green',
     'A cast confined to the dark half points at the bias controls: try the bias of green down.',
     'common practice, no published source'),
    ('34f046e0-a392-535e-b177-b0f8622c2fcc', 'observation', 'bluer', 'shadows', 'bias.blue',
     'A cast confined to the dark half points at the bias controls: try the bias of blue down.',
     'common practice, no published source'),
    ('950507d1-2044-55a5-aadc-6aec53095721', 'observation', 'more-cyan', 'shadows', 'bias.red',
     'A cast confined to the dark half points at the bias controls: cyan is too little red there.',
     'common practice, no published source'),
    ('fc693212-b156-5c4e-b4fb-6ec755a74a41', 'observation', 'more-magenta', 'shadows', 'bias.green',
     'A cast confined to the dark half points at the bias controls: magenta is too little green there.',
     'common practice, no published source'),
    ('f2305bce-cea1-532e-b0e0-19ce5a7f344c', 'observation', 'yellower', 'shadows', 'bias.blue',
     'A cast confined to the dark half points at the bias controls: yellow is too little blue there.',
     'common practice, no published source'),
    ('4d0f2f0e-6a53-5a0e-9d0b-6c2f6f3a7b11', 'observation', null, 'highlights', 'gain',
     'A cast confined to the bright end points at the gains: rule out first that one channel clips there.',
     'common practice, no published source'),
    ('b7c1a0d4-2f6e-5c3b-8a47-91d5e0c8f622', 'observation', null, 'midtones', null,
     'A difference in the middle alone points at the curve, which trims hardly reach: compare the ramps of both first.',
     'common practice, no published source'),
    ('e3a95f17-8c24-5d71-b0f6-2c7d4e9a1033', 'observation', 'lighter', 'shadows', 'black-level',
     'Lighter shadows: compare black first, then rule out a full range signal squeezed on its way.',
     'common practice, no published source'),
    ('0c6be8d2-71f9-5e48-a3c5-f48b29d07e44', 'observation', 'darker', 'shadows', 'black-level',
     'Darker shadows: one click of the black level up at a time, and true black must not lift.',
     'common practice, no published source'),
    ('98f465c7-4c1f-5bbf-9a3f-0e1d8433d5b1', 'observation', null, 'skin', 'hue',
     'A difference confined to skin points at hue or saturation, not at white balance: look at a neutral to be sure.',
     'common practice, no published source'),
    ('16b64bd0-c641-5109-9ebf-c71e2abe9548', 'observation', null, 'one-colour', 'saturation',
     'A difference confined to one colour points at saturation or hue, not at white balance: look at a neutral to be sure.',
     'common practice, no published source'),
    ('931a1e73-aa6f-5cc0-bcd4-6dbaf9115ace', 'observation', 'crushed', null, 'black-level',
     'Crushed shadows point at the black level: one click up, then look at true black, which must not lift.',
     'common practice, no published source'),
    ('e65f8c99-58ec-54ec-86d4-855ea31dced6', 'observation', 'more-saturated', 'whole-image', 'saturation',
     'Stronger colours everywhere: saturation down; rule out first that one of the two feeds carries another colour space.',
     'common practice, no published source'),
    ('6ca2d414-f86c-5cad-9b7a-e5ec6c1f9c4a', 'observation', 'less-saturated', 'whole-image', 'saturation',
     'Weaker colours everywhere: saturation up; rule out first that black is lifted, which washes colours out.',
     'common practice, no published source'),
    ('28ea079f-dc32-53e6-b68a-719e19161f13', 'observation', 'more-contrast', null, 'black-level',
     'Steeper tones: compare black first; then rule out a range fault of the feed, which looks just like this.',
     'common practice, no published source'),
    ('1bc6db05-4c49-57f2-9895-fab8fb71089f', 'observation', 'less-contrast', null, 'black-level',
     'Flatter tones: compare black first; then rule out a range fault of the feed, which looks just like this.',
     'common practice, no published source'),
    ('aa783dfb-af98-5223-a00d-176c64341af4', 'observation', 'lighter', 'whole-image', 'gain',
     'Lighter everywhere: all three gains down by the same clicks, so that white keeps its colour.',
     'common practice, no published source'),
    ('65570cbf-780c-5f75-8f7a-7b5155f6aced', 'observation', 'darker', 'whole-image', 'gain',
     'Darker everywhere: compare the peaks; gains have no room above their calibrated settings, so this may be the panel.',
     'common practice, no published source'),
    ('be6d7694-b50c-5fe1-96be-dc4a523d1482', 'trim', null, null, null,
     'Look at several shots, not the one that showed it: one control moves the whole picture.',
     'common practice, no published source'),
    ('8a21b324-5a29-51f2-9ddd-a42a0ec1f190', 'gain-raised', null, null, null,
     'A gain goes up by at most one click above its calibrated setting, or its channel clips: lower the other two instead.',
     'common practice, no published source'),
    ('469cbcab-2cd8-5d61-9466-bbc4c46c7141', 'verdict', null, null, null,
     'Go past the right setting on purpose and come back: the middle between two that are wrong is easier to see.',
     'common practice, no published source'),
    ('8d6b7f17-fb01-525c-bfe2-62e3c390c063', 'sign-off', null, null, null,
     'Go back over the earlier decisions: a later trim may have taken one of them back.',
     'common practice, no published source'),
    ('0259ed88-1ceb-59c1-a40a-4872722e6290', 'sign-off', null, null, null,
     'Take the closing runs before the operator leaves: without them the agreement is unmeasured and drift cannot be told.',
     'common practice, no published source');

do $$
declare
    t text;
begin
    foreach t in array array['match_story', 'match_step', 'match_given_up', 'control_range']
    loop
        execute format('create trigger history before update or delete on %I for each row execute function refuse_change()', t);
        execute format('create trigger history_whole before truncate on %I for each statement execute function refuse_change()', t);
    end loop;
end $$;

create trigger audit after insert on match_story for each row execute function keep_audit();
create trigger audit after insert on match_step for each row execute function keep_audit();
create trigger audit after insert on match_given_up for each row execute function keep_audit('story_id');
create trigger audit after insert on control_range for each row execute function keep_audit();
create trigger audit after insert or update or delete on advice for each row execute function keep_audit();
