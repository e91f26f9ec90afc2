package panelbook.app.planning.plan;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** Planning is pure: this lists all that it may touch, and no clock is among it. A rule whose package is empty fails. */
@AnalyzeClasses(packages = "panelbook.app.planning.plan", importOptions = ImportOption.DoNotIncludeTests.class)
class PurityTest {
    @ArchTest
    static final ArchRule touchesOnlyTheLanguageAndItsCollections = classes()
            .that()
            .resideInAPackage("panelbook.app.planning.plan")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                    "panelbook.app.planning.plan",
                    "java.lang",
                    "java.lang.invoke",
                    "java.lang.runtime",
                    "java.util",
                    "java.util.function",
                    "java.util.stream",
                    "java.time",
                    "org.jspecify.annotations");

    @ArchTest
    static final ArchRule asksNoClock = noClasses()
            .that()
            .resideInAPackage("panelbook.app.planning.plan")
            .should()
            .callMethod(System.class, "nanoTime")
            .orShould()
            .callMethod(System.class, "currentTimeMillis")
            .orShould()
            .callMethod(Math.class, "random")
            .orShould()
            .callMethod(java.time.Instant.class, "now");
}
