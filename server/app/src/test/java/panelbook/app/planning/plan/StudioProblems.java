package panelbook.app.planning.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * Made-up facilities: rooms with sessions booked, calibrators with working weeks and holidays, displays whose crossing of
 * tolerance is normally distributed. The figures are common practice, with no published source.
 */
final class StudioProblems {
    static final int DAY = 24 * 60;
    private static final NormalDistribution NORMAL = new NormalDistribution(0, 1);
    private static final List<String> KINDS = List.of("oled", "lcd", "projector");

    private StudioProblems() {}

    /**
     * Three facilities 40 to 70 minutes apart; rooms of one to five displays of 35 minutes each, warm-up of 30 or 60 minutes;
     * none to two sessions on each weekday.
     *
     * @param weekDays working days of each calibrator in a week, 1 to 5
     */
    static PlanProblem large(long seed, int rooms, int calibrators, int days, int weekDays) {
        Random random = new Random(seed);
        List<PlanRoom> made =
                IntStream.range(0, rooms).mapToObj(i -> room(random, i, days)).toList();
        List<PlanCalibrator> people = IntStream.range(0, calibrators)
                .mapToObj(i -> calibrator(random, i, days, weekDays))
                .toList();
        return new PlanProblem(
                IntStream.range(0, days).map(day -> day * DAY).boxed().toList(),
                made,
                people,
                List.of(List.of(0, 40, 70), List.of(40, 0, 55), List.of(70, 55, 0)),
                List.of(),
                List.of(),
                2,
                0.5);
    }

    private static PlanRoom room(Random random, int index, int days) {
        int displays = 1 + random.nextInt(5);
        int facility = random.nextInt(4) % 3;
        int importance = 1 + random.nextInt(3);
        double[] mean = random.doubles(displays, -10, 2.0 * days).toArray();
        double spread = 2 + 8 * random.nextDouble();
        List<Double> beyond = new ArrayList<>();
        double sum = 0;
        for (int day = 0; day <= days; day++) {
            beyond.add(sum);
            for (double crossing : mean) {
                sum += importance * NORMAL.cumulativeProbability((day - crossing) / spread);
            }
        }
        return new PlanRoom(
                new UUID(0, index),
                facility,
                Set.of(KINDS.get(random.nextInt(6) % 3 % 2 + (random.nextInt(10) == 0 ? 1 : 0))),
                random.nextBoolean() ? 30 : 60,
                20 + 35 * displays,
                free(random, days),
                beyond);
    }

    private static List<Span> free(Random random, int days) {
        List<Span> free = new ArrayList<>();
        int from = 0;
        for (int day = 0; day < days; day++) {
            int sessions = day % 7 < 5 ? random.nextInt(3) : 0;
            int earliest = 8 * 60;
            for (int s = 0; s < sessions; s++) {
                int start = day * DAY + earliest + 30 * random.nextInt(9);
                int end = start + 120 + 30 * random.nextInt(9);
                free.add(new Span(from, start));
                from = end;
                earliest = end - day * DAY + 30;
            }
        }
        free.add(new Span(from, Math.max(from + 1, days * DAY)));
        return free;
    }

    private static PlanCalibrator calibrator(Random random, int index, int days, int weekDays) {
        int first = 7 * 60 + 30 * random.nextInt(5);
        List<Span> works = new ArrayList<>();
        for (int day = 0; day < days; day++) {
            boolean works0 = (day % 7 + index) % 5 < weekDays && day % 7 < 5;
            boolean holiday = random.nextInt(20) == 0;
            if (works0 && !holiday) {
                works.add(new Span(day * DAY + first, day * DAY + first + 480));
            }
        }
        Set<String> skills = index % 4 == 3 ? Set.of("oled", "lcd") : Set.of();
        return new PlanCalibrator(new UUID(1, index), index % 3, skills, works);
    }
}
