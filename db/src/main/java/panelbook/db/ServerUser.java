package panelbook.db;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Under whom the server runs. PostgreSQL refuses to run as root, so a service of root's starts it in a user namespace,
 * where root's own files belong to an unprivileged user and no privilege is left, or as another user.
 *
 * <p>The namespace comes first: data stay root's, and folders that only root can enter (such as root's home) stay
 * usable. Data that belong to another user already are served as that user.
 *
 * @param description for people
 * @param prefix what to put before a command
 * @param uid the user that the server's files have to belong to, as this process sees it
 */
record ServerUser(String description, List<String> prefix, int uid) {
    private static final Logger log = LoggerFactory.getLogger(ServerUser.class);

    /** An entry of the user list. */
    private record Account(String name, int uid, int gid) {}

    /**
     * Chooses the user.
     *
     * @param folder the folder with the server's data, existing
     * @param ownUid who runs this process; 0 is root
     * @throws EmbeddedPostgresException when root has no way to run the server, with all that was tried
     */
    static ServerUser choose(Path folder, int ownUid) throws IOException {
        if (ownUid != 0) {
            return new ServerUser("the user of this process", List.of(), ownUid);
        }
        int owner = ownerOf(folder);
        List<ServerUser> candidates = owner == 0 ? forRootsOwnFiles() : asUser(accountOf(owner));
        return firstThatWorks(folder, candidates);
    }

    /**
     * Tries ways to run the server.
     *
     * @throws EmbeddedPostgresException when none works, with all that was tried
     */
    static ServerUser firstThatWorks(Path folder, List<ServerUser> candidates) throws IOException {
        List<String> tried = new ArrayList<>();
        for (ServerUser candidate : candidates) {
            String failure = candidate.tryIn(folder);
            if (failure.isEmpty()) {
                log.info("Started as root, which PostgreSQL refuses: the server runs {}", candidate.description);
                return candidate;
            }
            tried.add(candidate.description + " (" + failure + ")");
        }
        throw new EmbeddedPostgresException("PostgreSQL refuses to run as root, and no other way works here for the"
                + " data folder " + folder + ". Tried: " + String.join("; ", tried)
                + ". Start the service as an ordinary user, or allow user namespaces (unshare --user), or choose a data"
                + " folder that an unprivileged user can reach, such as /var/lib/panelbook.");
    }

    /** The ways for files of root's, the soundest first. */
    static List<ServerUser> forRootsOwnFiles() throws IOException {
        List<ServerUser> ways = new ArrayList<>();
        List<Account> accounts = unprivilegedAccounts();
        for (Account account : accounts.subList(0, Math.min(1, accounts.size()))) {
            ways.add(new ServerUser(
                    "in a user namespace as " + account.name,
                    List.of("unshare", "--user", "--map-user=" + account.uid, "--map-group=" + account.gid, "--"),
                    0));
        }
        for (Account account : accounts) {
            ways.addAll(asUser(account));
        }
        return ways;
    }

    private static List<ServerUser> asUser(Account account) {
        return List.of(
                new ServerUser(
                        "as user " + account.name + " by setpriv",
                        List.of(
                                "setpriv",
                                "--reuid=" + account.uid,
                                "--regid=" + account.gid,
                                "--clear-groups",
                                "--no-new-privs",
                                "--"),
                        account.uid),
                new ServerUser(
                        "as user " + account.name + " by runuser",
                        List.of("runuser", "-u", account.name, "--"),
                        account.uid));
    }

    /** Users that may stand in for root: one of our own, PostgreSQL's usual one, the one that owns nothing. */
    private static List<Account> unprivilegedAccounts() throws IOException {
        List<Account> all = accounts();
        return Stream.of("panelbook", "postgres", "nobody")
                .flatMap(name -> all.stream().filter(account -> account.name.equals(name) && account.uid != 0))
                .toList();
    }

    private static Account accountOf(int uid) throws IOException {
        Optional<Account> known =
                accounts().stream().filter(account -> account.uid == uid).findFirst();
        return known.orElse(new Account(Integer.toString(uid), uid, uid));
    }

    private static List<Account> accounts() throws IOException {
        List<Account> accounts = new ArrayList<>();
        for (String line : Files.readAllLines(Path.of("/etc/passwd"), StandardCharsets.UTF_8)) {
            String[] fields = line.split(":", -1);
            if (fields.length > 3 && fields[2].matches("\\d{1,9}") && fields[3].matches("\\d{1,9}")) {
                accounts.add(new Account(fields[0], Integer.parseInt(fields[2]), Integer.parseInt(fields[3])));
            }
        }
        return accounts;
    }

    /** Tries to run a command that needs to write in the folder; answers what went wrong, empty when nothing did. */
    private String tryIn(Path folder) throws IOException {
        boolean lend = uid != 0 && ownerOf(folder) == 0;
        if (lend) {
            Files.setAttribute(folder, "unix:uid", uid);
        }
        Command.Result result =
                run(List.of("sh", "-c", "test \"$(id -u)\" != 0 && cd \"$1\" && test -w .", "sh", folder.toString()));
        if (lend && result.failed()) {
            Files.setAttribute(folder, "unix:uid", 0);
        }
        return result.failed() ? result.describe() : "";
    }

    /** Runs a command as this user and waits for its end. */
    Command.Result run(List<String> command) throws IOException {
        return Command.run(as(command));
    }

    /** Runs a command as this user, with a short text as its input. */
    Command.Result run(List<String> command, String input) throws IOException {
        return Command.run(as(command), input);
    }

    /** The command as this user. */
    List<String> as(List<String> command) {
        return Stream.concat(prefix.stream(), command.stream()).toList();
    }

    /** Gives a file or folder, with all in it, to this user when it is another's than this process's. */
    void own(Path path) throws IOException {
        if (uid == ownUid() || !Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
            return;
        }
        try (Stream<Path> all = Files.walk(path)) {
            for (Path each : (Iterable<Path>) all::iterator) {
                Files.setAttribute(each, "unix:uid", uid, LinkOption.NOFOLLOW_LINKS);
            }
        }
    }

    /** Whether the user can run a program at that place; another user may be shut out of a folder above it. */
    boolean canRun(Path program) throws IOException {
        return !run(List.of("test", "-x", program.toString())).failed();
    }

    static int ownerOf(Path path) throws IOException {
        return (Integer) Files.getAttribute(path, "unix:uid");
    }

    static int ownUid() {
        return (int) new com.sun.security.auth.module.UnixSystem().getUid();
    }
}
