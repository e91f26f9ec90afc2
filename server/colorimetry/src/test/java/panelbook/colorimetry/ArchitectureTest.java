package panelbook.colorimetry;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The library is pure: this lists all that it may touch. A rule whose packages are empty fails. */
@AnalyzeClasses(packages = "panelbook.colorimetry", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {
    @ArchTest
    static final ArchRule touchesOnlyTheLanguageCollectionsGeometryAndNumerics = classes()
            .that()
            .resideInAPackage("panelbook.colorimetry..")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                    "panelbook.colorimetry..",
                    "java.lang",
                    "java.lang.invoke",
                    "java.lang.runtime",
                    "java.util",
                    "java.util.function",
                    "java.util.stream",
                    "java.time",
                    "org.locationtech.jts.geom",
                    "org.hipparchus.distribution.continuous",
                    "org.hipparchus.exception",
                    "org.hipparchus.linear",
                    "org.hipparchus.optim",
                    "org.hipparchus.optim.nonlinear.vector.leastsquares",
                    "org.hipparchus.util",
                    "org.jspecify.annotations");

    @ArchTest
    static final ArchRule keepsNoClockNoRandomnessAndNoConsole = noClasses()
            .that()
            .resideInAPackage("panelbook.colorimetry..")
            .should()
            .dependOnClassesThat()
            .belongToAnyOf(java.util.Random.class, java.util.Date.class, java.util.Timer.class, Thread.class)
            .orShould()
            .accessField(System.class, "out")
            .orShould()
            .accessField(System.class, "err")
            .orShould()
            .callMethod(System.class, "nanoTime")
            .orShould()
            .callMethod(System.class, "currentTimeMillis")
            .orShould()
            .callMethod(Math.class, "random")
            .orShould()
            .dependOnClassesThat()
            .areAssignableTo(java.time.Clock.class)
            .orShould()
            .callMethod(java.time.Instant.class, "now")
            .orShould()
            .callMethod(java.time.LocalDate.class, "now");

    @ArchTest
    static final ArchRule geometryIsForGamutsOnly = noClasses()
            .that()
            .resideOutsideOfPackage("panelbook.colorimetry.verification")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("org.locationtech..");

    @ArchTest
    static final ArchRule fittingIsForSignalPathsTrimsAndSeriesOnly = noClasses()
            .that()
            .resideOutsideOfPackages(
                    "panelbook.colorimetry.signalpath",
                    "panelbook.colorimetry.trim",
                    "panelbook.colorimetry.forecast",
                    "panelbook.colorimetry.control")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("org.hipparchus..");

    @ArchTest
    static final ArchRule partsDependOneWay =
            slices().matching("panelbook.colorimetry.(*)..").should().beFreeOfCycles();

    @ArchTest
    static final ArchRule coloursKnowNothingOfTheirUse = noClasses()
            .that()
            .resideInAPackage("panelbook.colorimetry")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "panelbook.colorimetry.signal",
                    "panelbook.colorimetry.verification",
                    "panelbook.colorimetry.uncertainty",
                    "panelbook.colorimetry.drift",
                    "panelbook.colorimetry.correction",
                    "panelbook.colorimetry.signalpath",
                    "panelbook.colorimetry.trim",
                    "panelbook.colorimetry.forecast",
                    "panelbook.colorimetry.control");
}
