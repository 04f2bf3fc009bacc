package tracksoak;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideOutsideOfPackages;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** Imports point down only: the shape of the house. */
@AnalyzeClasses(packages = "tracksoak", importOptions = LayersTest.ShippedClasses.class)
class LayersTest {

    /** Everything that ships, from folders and from jars. */
    static final class ShippedClasses implements ImportOption {
        @Override
        public boolean includes(com.tngtech.archunit.core.importer.Location location) {
            return new ImportOption.DoNotIncludeTests().includes(location);
        }
    }

    @ArchTest
    static final ArchRule ROOMS = layeredArchitecture()
            .consideringOnlyDependenciesInAnyPackage("tracksoak..")
            .layer("profiles")
            .definedBy("tracksoak.profiles..")
            .layer("record")
            .definedBy("tracksoak.report.record..")
            .layer("stats")
            .definedBy("tracksoak.report.stats..")
            .layer("verdict")
            .definedBy("tracksoak.report.verdict..")
            .layer("history")
            .definedBy("tracksoak.report.history..")
            .layer("page")
            .definedBy("tracksoak.report.page..", "tracksoak.report.templates", "tracksoak.report.templates.block..")
            .layer("roster")
            .definedBy("tracksoak.report.roster..", "tracksoak.report.templates.roster..")
            .layer("drive")
            .definedBy("tracksoak.bench.drive..")
            .layer("stream")
            .definedBy("tracksoak.bench.stream..")
            .layer("recorder")
            .definedBy("tracksoak.bench.recorder..")
            .layer("phase")
            .definedBy("tracksoak.bench.phase..")
            .layer("replay")
            .definedBy("tracksoak.bench.replay..")
            .layer("climb")
            .definedBy("tracksoak.bench.climb..")
            .layer("simulated")
            .definedBy("tracksoak.bench.simulated..")
            .layer("command")
            .definedBy("tracksoak.bench.command..")
            .whereLayer("command")
            .mayNotBeAccessedByAnyLayer()
            .whereLayer("climb")
            .mayOnlyBeAccessedByLayers("command")
            .whereLayer("phase")
            .mayOnlyBeAccessedByLayers("climb", "command")
            .whereLayer("replay")
            .mayOnlyBeAccessedByLayers("command")
            .whereLayer("simulated")
            .mayOnlyBeAccessedByLayers("command")
            .whereLayer("recorder")
            .mayOnlyBeAccessedByLayers("phase", "climb", "replay", "command", "simulated")
            .whereLayer("stream")
            .mayOnlyBeAccessedByLayers("recorder", "phase", "replay", "simulated", "command")
            .whereLayer("drive")
            .mayOnlyBeAccessedByLayers("stream", "recorder", "phase", "replay", "simulated", "command")
            .whereLayer("roster")
            .mayOnlyBeAccessedByLayers("command")
            .whereLayer("page")
            .mayOnlyBeAccessedByLayers("roster", "command")
            .whereLayer("history")
            .mayOnlyBeAccessedByLayers("page", "command")
            .whereLayer("verdict")
            .mayOnlyBeAccessedByLayers("history", "page", "roster", "drive", "phase", "climb", "replay", "command")
            .whereLayer("stats")
            .mayOnlyBeAccessedByLayers("verdict", "history", "page", "roster", "recorder", "phase", "command")
            .whereLayer("record")
            .mayOnlyBeAccessedByLayers(
                    "verdict",
                    "history",
                    "page",
                    "roster",
                    "drive",
                    "stream",
                    "recorder",
                    "phase",
                    "replay",
                    "climb",
                    "simulated",
                    "command")
            .whereLayer("profiles")
            .mayOnlyBeAccessedByLayers(
                    "record",
                    "verdict",
                    "history",
                    "page",
                    "roster",
                    "drive",
                    "stream",
                    "recorder",
                    "phase",
                    "replay",
                    "climb",
                    "simulated",
                    "command");

    @ArchTest
    static final ArchRule SIMULATED_DRIVES_BORROW_ONLY_THE_CLOCK = noClasses()
            .that()
            .resideInAPackage("tracksoak.bench.simulated..")
            .should()
            .dependOnClassesThat(resideInAnyPackage("tracksoak.bench.recorder..")
                    .and(com.tngtech.archunit.base.DescribedPredicate.not(
                            com.tngtech.archunit.core.domain.JavaClass.Predicates.simpleNameEndingWith("Clock")
                                    .or(com.tngtech.archunit.core.domain.JavaClass.Predicates.simpleName("Waiter")))));

    @ArchTest
    static final ArchRule STATISTICS_KNOW_NOTHING = classes()
            .that()
            .resideInAPackage("tracksoak.report.stats..")
            .should()
            .onlyDependOnClassesThat(resideInAnyPackage("tracksoak.report.stats..", "java..", "org.jspecify.."));

    @ArchTest
    static final ArchRule MEASURING_KNOWS_NO_SCREEN_FORMAT_OR_DATABASE = noClasses()
            .that()
            .resideInAnyPackage(
                    "tracksoak.bench.recorder..",
                    "tracksoak.bench.stream..",
                    "tracksoak.report.verdict..",
                    "tracksoak.report.stats..",
                    "tracksoak.profiles..")
            .should()
            .dependOnClassesThat(resideInAnyPackage(
                    "picocli..", "com.fasterxml..", "gg.jte..", "java.sql..", "javax.swing..", "java.awt.."));

    @ArchTest
    static final ArchRule ONLY_COMMANDS_SPEAK = noClasses()
            .that(resideOutsideOfPackages("tracksoak.bench.command.."))
            .should()
            .accessField(System.class, "out")
            .orShould()
            .accessField(System.class, "err")
            .orShould()
            .dependOnClassesThat(resideInAnyPackage("picocli.."));

    @ArchTest
    static final ArchRule NO_CIRCLES = com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices()
            .matching("tracksoak.(*).(*)..")
            .should()
            .beFreeOfCycles();
}
