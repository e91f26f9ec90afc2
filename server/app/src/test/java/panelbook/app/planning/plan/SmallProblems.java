package panelbook.app.planning.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;

/** Small problems of every kind, all times in whole hours: tight and loose ones, with rooms and people that fit nowhere. */
final class SmallProblems {
    static final int GRID = 60;
    private static final int DAY = 24 * 60;

    private final Random random;
    private final int days;
    private final int facilities;

    private SmallProblems(Random random) {
        this.random = random;
        days = 1 + random.nextInt(3);
        facilities = 1 + random.nextInt(3);
    }

    /** A problem with up to so many rooms, its travel times obeying the triangle inequality. */
    static PlanProblem of(long seed, int mostRooms) {
        return new SmallProblems(new Random(seed * 7919 + 17)).make(mostRooms);
    }

    private PlanProblem make(int mostRooms) {
        List<PlanRoom> rooms = IntStream.range(0, random.nextInt(mostRooms + 1))
                .mapToObj(this::room)
                .toList();
        List<PlanCalibrator> people = IntStream.range(0, random.nextInt(8) == 0 ? 0 : 1 + random.nextInt(2))
                .mapToObj(this::calibrator)
                .toList();
        List<PlannedVisit> fixed = new ArrayList<>();
        List<PlannedVisit> proposed = new ArrayList<>();
        for (int room = 0; room < rooms.size() && !people.isEmpty(); room++) {
            int kind = random.nextInt(8);
            if (kind == 0) {
                fixed.add(anyVisit(rooms, people, room));
            } else if (kind <= 2) {
                proposed.add(anyVisit(rooms, people, room));
            }
        }
        return new PlanProblem(
                IntStream.range(0, days).map(day -> day * DAY).boxed().toList(),
                rooms,
                people,
                travel(),
                fixed,
                proposed,
                random.nextInt(3),
                random.nextInt(3) * 0.5);
    }

    private List<List<Integer>> travel() {
        // 60 or 120 each: the triangle inequality cannot fail
        int[][] minutes = new int[facilities][facilities];
        for (int from = 0; from < facilities; from++) {
            for (int to = 0; to < from; to++) {
                minutes[from][to] = GRID * (1 + random.nextInt(2));
                minutes[to][from] = minutes[from][to];
            }
        }
        return IntStream.range(0, facilities)
                .mapToObj(from -> IntStream.of(minutes[from]).boxed().toList())
                .toList();
    }

    private PlanRoom room(int index) {
        List<Span> free = new ArrayList<>();
        int time = GRID * random.nextInt(12);
        while (time < days * DAY) {
            int end = time + GRID * (1 + random.nextInt(random.nextInt(4) == 0 ? 30 : 8));
            free.add(new Span(time, end));
            time = end + GRID * (1 + random.nextInt(6));
        }
        List<Double> beyond = new ArrayList<>();
        double sum = random.nextInt(3);
        for (int day = 0; day <= days; day++) {
            beyond.add(sum);
            sum += random.nextInt(4) * 0.75;
        }
        return new PlanRoom(
                new UUID(0, index),
                random.nextInt(facilities),
                random.nextInt(4) == 0 ? Set.of("oled") : Set.of(),
                GRID * random.nextInt(2),
                GRID * (1 + random.nextInt(3)),
                free,
                beyond);
    }

    private PlanCalibrator calibrator(int index) {
        List<Span> works = new ArrayList<>();
        int time = GRID * (6 + random.nextInt(6));
        while (time < days * DAY) {
            int end = time + GRID * (2 + random.nextInt(5));
            works.add(new Span(time, end));
            time = random.nextInt(4) == 0 ? end + GRID : end + GRID * (8 + random.nextInt(16));
        }
        Set<String> skills = random.nextInt(3) == 0 ? Set.of("lcd") : Set.of();
        return new PlanCalibrator(new UUID(1, index), random.nextInt(facilities), skills, works);
    }

    private PlannedVisit anyVisit(List<PlanRoom> rooms, List<PlanCalibrator> people, int room) {
        int start = GRID * random.nextInt(days * 24);
        int calibrator = random.nextInt(people.size());
        return new PlannedVisit(room, calibrator, start, start + rooms.get(room).workMinutes());
    }
}
