package panelbook.app;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.time.Clock;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.springframework.modulith.core.ApplicationModules;
import org.springframework.modulith.docs.Documenter;
import org.springframework.web.bind.annotation.RestController;

/** The parts of the service, what each may use, and their diagrams. */
class ModularityTests {

    private static final ApplicationModules PARTS = ApplicationModules.of(PanelbookApplication.class);
    private static final JavaClasses CLASSES = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("panelbook.app");

    @Test
    void partsUseOnlyWhatOthersOfferAtTheirRootAndNeverInACircle() {
        PARTS.verify();
    }

    @Test
    void thePartsDrawThemselves() {
        new Documenter(PARTS).writeModulesAsPlantUml().writeIndividualModulesAsPlantUml();
    }

    @Test
    void controllersAreNobodysBusiness() {
        classes()
                .that()
                .areAnnotatedWith(RestController.class)
                .should()
                .bePackagePrivate()
                .check(CLASSES);
    }

    @Test
    void nowComesFromTheClockThatTestsCanSet() {
        noClasses()
                .that()
                .doNotBelongToAnyOf(PanelbookApplication.class)
                .should()
                .callMethod(Instant.class, "now")
                .orShould()
                .callMethod(Clock.class, "systemUTC")
                .orShould()
                .callMethod(System.class, "currentTimeMillis")
                .check(CLASSES);
    }
}
