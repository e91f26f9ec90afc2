package panelbook.cli.command;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.terminal.Failure;

/**
 * What is said when the operator accepts.
 *
 * @param followerRun closing run; null for the last reading of the follower, if it shows the controls as they stand
 * @param heroRun closing run; null for the last reading of the hero
 * @param material what was looked at
 * @param unmeasured whether it is signed without closing runs
 */
record SignWords(
        @Nullable UUID followerRun,
        @Nullable UUID heroRun,
        @Nullable String material,
        @Nullable String remarks,
        boolean unmeasured) {

    static final String OPTIONS =
            "[--material TEXT] [--remarks TEXT] [--follower-run RUN --hero-run RUN] [--unmeasured]";

    static SignWords of(
            @Nullable String followerRun,
            @Nullable String heroRun,
            @Nullable String material,
            @Nullable String remarks,
            boolean unmeasured) {
        if ((followerRun == null) != (heroRun == null)) {
            throw Failure.usage("Give both --follower-run and --hero-run, or neither.");
        }
        if (unmeasured && followerRun != null) {
            throw Failure.usage("--unmeasured means without closing runs: leave it out, or leave the runs out.");
        }
        return new SignWords(
                followerRun == null ? null : Names.id("a run", followerRun),
                heroRun == null ? null : Names.id("a run", heroRun),
                material,
                remarks,
                unmeasured);
    }

    /** From the words that follow sign in a session. */
    static SignWords of(List<String> words) {
        @Nullable String followerRun = null;
        @Nullable String heroRun = null;
        @Nullable String material = null;
        @Nullable String remarks = null;
        var unmeasured = false;
        for (var i = 0; i < words.size(); i++) {
            var name = words.get(i);
            if (name.equals("--unmeasured")) {
                unmeasured = true;
                continue;
            }
            if (i + 1 == words.size()) {
                throw misunderstood(name);
            }
            var value = words.get(++i);
            switch (name) {
                case "--follower-run" -> followerRun = value;
                case "--hero-run" -> heroRun = value;
                case "--material" -> material = value;
                case "--remarks" -> remarks = value;
                default -> throw misunderstood(name);
            }
        }
        return of(followerRun, heroRun, material, remarks, unmeasured);
    }

    private static Failure misunderstood(String word) {
        return Failure.usage("\"" + word + "\" is not understood here. Type sign alone, or sign " + OPTIONS
                + "; a text of several words goes in quotes.");
    }
}
