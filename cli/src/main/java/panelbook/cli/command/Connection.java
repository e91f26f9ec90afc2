package panelbook.cli.command;

import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Folders;
import panelbook.cli.service.LogIn;
import panelbook.cli.service.Names;
import panelbook.cli.service.Remembered;
import panelbook.cli.service.Service;
import panelbook.cli.spool.Spool;
import panelbook.cli.terminal.Surroundings;

/** The service, names and spool of one call, each made when first asked for. */
final class Connection {

    private final Surroundings at;
    private @Nullable LogIn logIn;
    private @Nullable Service service;
    private @Nullable Names names;
    private boolean spoolSeen;

    Connection(Surroundings at) {
        this.at = at;
    }

    Surroundings at() {
        return at;
    }

    LogIn logIn() {
        if (logIn == null) {
            logIn = LogIn.read(at);
        }
        return logIn;
    }

    /** The service; the first call sends what waits in the spool. */
    Service service() {
        if (!spoolSeen) {
            spoolSeen = true;
            SpoolSending.onTheSide(this);
        }
        return plainService();
    }

    /** The service, the spool left alone. */
    Service plainService() {
        if (service == null) {
            service = new Service(logIn());
        }
        return service;
    }

    /** Says that the command looks after the spool itself. */
    void leaveSpool() {
        spoolSeen = true;
    }

    Names names() {
        if (names == null) {
            names = new Names(service(), Remembered.of(Folders.of(at), logIn().service()));
        }
        return names;
    }

    Spool spool() {
        return new Spool(Folders.of(at));
    }

    void close() {
        if (names != null) {
            names.remembered().save();
        }
    }
}
