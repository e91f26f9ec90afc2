package panelbook.db;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The first set-up of a folder: whole, or to be begun again at the next start. */
record FolderSetup(FolderLayout layout, ServerUser user, PostgresPrograms programs, boolean durable) {
    private static final Logger log = LoggerFactory.getLogger(FolderSetup.class);

    Secrets secretsAndData() throws IOException {
        Path file = Secrets.file(layout.folder());
        boolean known = Files.isRegularFile(file);
        Secrets secrets = known ? Secrets.read(layout.folder()) : Secrets.generate();
        if (!Files.exists(layout.data())) {
            secrets.write(layout.folder());
            makeData(secrets);
        } else if (!known) {
            log.warn("{} is missing: setting new passwords", file);
            setAdministratorPassword(secrets);
            secrets.write(layout.folder());
        }
        return secrets;
    }

    private void makeData(Secrets secrets) throws IOException {
        sweepUnfinished();
        Path unfinished = layout.unfinishedData();
        Path passwordFile = layout.folder().resolve("initial-password");
        OwnerOnly.write(passwordFile, secrets.administrator().password() + "\n");
        user.own(layout.folder());
        Command.Result result = user.run(initdb(unfinished, passwordFile));
        Files.deleteIfExists(passwordFile);
        if (result.failed()) {
            throw new EmbeddedPostgresException(
                    "The data folder " + layout.folder() + " cannot be set up; initdb says:\n" + result.describe());
        }
        ServerConfiguration.install(unfinished);
        Files.move(unfinished, layout.data(), StandardCopyOption.ATOMIC_MOVE);
        OwnerOnly.syncFolder(layout.folder());
    }

    private void sweepUnfinished() throws IOException {
        for (Path left : layout.leftUnfinished()) {
            try {
                OwnerOnly.deleteTree(left);
            } catch (IOException stillWrittenTo) {
                log.warn("{} cannot be removed now: {}", left, stillWrittenTo.toString());
            }
        }
    }

    private List<String> initdb(Path target, Path passwordFile) {
        return List.of(
                programs.program("initdb").toString(),
                "--pgdata=" + target,
                "--username=" + Secrets.ADMINISTRATOR,
                "--pwfile=" + passwordFile,
                "--auth=scram-sha-256",
                "--encoding=UTF8",
                "--locale=C",
                "--locale-provider=builtin",
                "--builtin-locale=C.UTF-8",
                "--data-checksums",
                "--no-instructions",
                durable ? "--sync-method=fsync" : "--no-sync");
    }

    /** The owner of the files may do this without a password; the application's role follows when it is checked. */
    private void setAdministratorPassword(Secrets secrets) throws IOException {
        Command.Result result = user.run(
                List.of(
                        programs.program("postgres").toString(),
                        "--single",
                        "-D",
                        layout.data().toString(),
                        "postgres"),
                "ALTER ROLE " + Secrets.ADMINISTRATOR + " PASSWORD '"
                        + secrets.administrator().password() + "'\n");
        if (result.failed()) {
            throw new EmbeddedPostgresException("The passwords of " + layout.folder()
                    + " are missing and new ones cannot be set: " + result.describe());
        }
    }
}
