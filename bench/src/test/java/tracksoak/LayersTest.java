package tracksoak;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideOutsideOfPackages;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.core.importer.Location;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.util.Map;
import java.util.TreeMap;
import tracksoak.bench.stream.Misplaced;

/** Imports point down only: the shape of the house, see {@link House}. */
@AnalyzeClasses(packages = "tracksoak", importOptions = LayersTest.ShippedClasses.class)
class LayersTest {

    /** The largest room: simulated, a list of like things. */
    private static final int MOST_FILES = 41;

    private static final House HOUSE = new House();

    /** Everything that ships, from folders and from jars. */
    static final class ShippedClasses implements ImportOption {
        @Override
        public boolean includes(Location location) {
            return new ImportOption.DoNotIncludeTests().includes(location) && !location.contains("-tests.jar");
        }
    }

    @ArchTest
    static final ArchRule ROOMS = classes()
            .that()
            .resideInAPackage("tracksoak..")
            .should(new ArchCondition<>("lie in a room that may use what they use") {
                @Override
                public void check(JavaClass one, ConditionEvents events) {
                    HOUSE.wrongs(one).forEach(wrong -> events.add(SimpleConditionEvent.violated(one, wrong)));
                }
            });

    @ArchTest
    static void no_room_is_larger_than_a_person_can_look_over(JavaClasses all) {
        Map<String, Integer> files = new TreeMap<>();
        for (JavaClass one : all) {
            if (one.isTopLevelClass() && !one.getSimpleName().equals("package-info")) {
                files.merge(one.getPackageName(), 1, Integer::sum);
            }
        }
        files.keySet().removeIf(name -> name.startsWith("tracksoak.report.templates"));
        assertThat(files.values()).allSatisfy(count -> assertThat(count).isLessThanOrEqualTo(MOST_FILES));
    }

    @ArchTest
    static void every_room_named_here_is_there(JavaClasses all) {
        assertThat(HOUSE.rooms().keySet())
                .allSatisfy(room -> assertThat(all.stream()
                                .anyMatch(one -> one.getPackageName().startsWith("tracksoak." + room)))
                        .as(room)
                        .isTrue());
    }

    @ArchTest
    static void a_file_in_the_wrong_room_is_told_where_it_belongs(JavaClasses all) {
        JavaClass misplaced =
                new ClassFileImporter().importClasses(Misplaced.class).get(Misplaced.class);

        assertThat(HOUSE.wrongs(misplaced))
                .containsExactly(
                        "tracksoak.bench.stream.Misplaced uses report.verdict, which bench.stream (stamped blocks"
                                + " and the files of a pass) may not; by what it uses it belongs in report.verdict (criteria and the"
                                + " judge) or report.history (runs of one drive held against each other) or report.page (the HTML"
                                + " report)");
    }

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
}
