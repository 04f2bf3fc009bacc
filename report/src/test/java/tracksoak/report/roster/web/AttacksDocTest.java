package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;

/** The table of attacks in docs/roster.md names every test of the classes of attacks, and no other. */
class AttacksDocTest {

    private static final String[] CLASSES = {
        "web.AttacksTest",
        "web.TruthOverHttpTest",
        "TruthContract",
        "exchange.RemoteRosterTest",
        "web.ClosedRosterTest",
        "web.ManyLaptopsTest",
        "web.StarvationTest",
        "web.ServedSoakTest",
        "web.server.ServerErrorsTest"
    };

    private static Class<?> named(String name) {
        try {
            return Class.forName("tracksoak.report.roster." + name);
        } catch (ClassNotFoundException e) {
            throw new IllegalStateException(name, e);
        }
    }

    @Test
    void theTableNamesEveryAttackThatIsTested() throws IOException {
        String doc = Files.readString(Path.of("../docs/roster.md"));
        String table = doc.substring(doc.indexOf("### Attacks tried"));
        List<String> named = Pattern.compile("`([a-z]\\w+)`")
                .matcher(table.substring(0, table.indexOf("\n## ")))
                .results()
                .map(MatchResult::group)
                .map(name -> name.replace("`", ""))
                .toList();
        List<String> tests = Stream.of(CLASSES)
                .flatMap(name -> Stream.of(named(name).getDeclaredMethods()))
                .filter(method ->
                        method.isAnnotationPresent(Test.class) || method.isAnnotationPresent(ParameterizedTest.class))
                .map(Method::getName)
                .toList();
        assertThat(named).containsExactlyInAnyOrderElementsOf(tests);
    }
}
