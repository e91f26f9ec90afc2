package panelbook.cli.command;

/** The client's version. */
final class Version {

    private Version() {}

    static String text() {
        var version = Version.class.getPackage().getImplementationVersion();
        return version == null ? "(not packaged)" : version;
    }
}
