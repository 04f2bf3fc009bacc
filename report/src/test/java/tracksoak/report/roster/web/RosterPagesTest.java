package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import nu.validator.client.EmbeddedValidator;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.record.json.RecordJson;
import tracksoak.report.roster.Shows;

/** The pages as they come over the wire, without a browser. */
class RosterPagesTest {

    private static final Pattern TAG = Pattern.compile("<a class=\"tag\"[^>]*>(?:\\s|<[^>]*>)*([^<]*)");

    @TempDir
    Path folder;

    private Served served;

    @BeforeEach
    void start() {
        served = new Served(folder);
        served.desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(served.key), "S-014");
        served.desk.enter(Shows.fail("B4RN-0002", Shows.START.plusSeconds(5)).signed(served.key), "S-002");
        served.desk.enter(
                Shows.pass("B4RN-0003", Shows.START.minus(Duration.ofDays(200))).signed(served.key), "S-100");
    }

    @AfterEach
    void stop() {
        served.close();
        assertThat(served.failures).isEmpty();
    }

    private List<String> tags(String path) {
        HttpResponse<String> answer = served.get(path);
        assertThat(answer.statusCode()).as(path).isEqualTo(200);
        List<String> tags = new ArrayList<>();
        Matcher matcher = TAG.matcher(answer.body());
        while (matcher.find()) {
            tags.add(matcher.group(1).strip());
        }
        return tags;
    }

    /** Nobody may be told that a drive can go which the list for tonight does not offer. */
    @Test
    void aDriveWhoseTagIsToBeSettledIsNotCountedAsReady() {
        served.desk.enter(Shows.pass("B4RN-0004", Shows.START).signed(served.key), "S-004");
        assertThat(served.get("/").body()).contains("2 can go tonight");
        served.desk.tag("S-004", "S-104", "somebody wrote this on its other side");
        String page = served.get("/").body();
        assertThat(page).contains("1 can go tonight").contains("2 cleared");
        assertThat(tags("/tonight?session=barn-32")).as("the other is due").containsExactly("S-014", "S-100");
        assertThat(served.get("/tonight?session=barn-32").body())
                .contains("One drive is trusted or cleared for it, but not offered until the tag is settled.");
    }

    @Test
    void aRecordWhoseTagWasTakenBackIsNotSaidToBeTakenBack() {
        served.desk.tag("S-014", "S-114", "new label");
        served.desk.settle("S-114", "S-014", "the old one is off");
        assertThat(served.get("/drives/S-114").body())
                .contains("(its tag S-014 taken back)")
                .doesNotContain("(taken back)");
    }

    /** Drives that are left out are no reason to say that there are none. */
    @Test
    void drivesThatWaitForTheirTagAreNotSaidToBeMissing() {
        served.desk.tag("S-014", "S-114", "somebody wrote this on its other side");
        assertThat(served.get("/tonight?session=barn-32").body())
                .contains("yet. One drive is trusted or cleared for it, but not offered")
                .doesNotContain("No drive is trusted");
    }

    /** Nobody may stick on a label that names two drives, or a drive by two names, without being told. */
    @Test
    void aLabelShowsOneTagAndSaysWhatIsToBeSettled() {
        assertThat(served.get("/labels").body()).doesNotContain("to be settled").doesNotContain("on another drive");
        served.desk.tag("S-014", "S-114", "somebody wrote this on its other side");
        String both = served.get("/labels?drive=S-014").body();
        assertThat(both).contains("<bdi>S-014</bdi></h2>").contains("also tagged S-114, to be settled");
        served.desk.tag("S-100", "S-114", "and on this one");
        assertThat(served.get("/labels?drive=S-014").body())
                .contains("also tagged S-114, to be settled")
                .contains("tag is on another drive, too");
        served.desk.tag("S-002", "S-102", "one");
        served.desk.tag("S-102", "S-103", "two");
        assertThat(served.get("/labels?drive=S-002").body()).contains("2 more tags, to be settled");
    }

    /** Whoever looks a drive up must not read first what it still may carry. */
    /** Trusted means trusted for a session: a label that says the one without the other sends a drive to the wrong show. */
    @Test
    void aLabelNamesTheSessionItsStandingIsFor() {
        for (String asked : new String[] {"/labels?drive=S-014", "/labels?drive=S-014&session=barn-32"}) {
            assertThat(served.get(asked).body()).contains("<p class=\"session\"><bdi>barn-32</bdi></p>");
        }
        served.desk.withdraw("S-014", "fell");
        assertThat(served.get("/labels?drive=S-014").body())
                .contains("withdrawn")
                .doesNotContain("class=\"session\"");
    }

    @Test
    void aDriveThatFailedSaysSoFirst() {
        served.desk.enter(
                Shows.pass("B4RN-0002", Shows.START.minus(Duration.ofDays(1))).signed(served.key), "S-002");
        String page = served.get("/drives/S-002").body();
        assertThat(page).contains("failed").contains("cleared");
        assertThat(page.indexOf("class=\"standing failed\""))
                .isPositive()
                .isLessThan(page.indexOf("class=\"standing cleared\""));
    }

    @Test
    void theTableIsSearchedFilteredAndSortedByItsAddressAlone() {
        assertThat(tags("/")).containsExactly("S-002", "S-014", "S-100");
        assertThat(tags("/?sort=tag-down")).containsExactly("S-100", "S-014", "S-002");
        assertThat(tags("/?sort=run")).containsExactly("S-100", "S-014", "S-002");
        assertThat(tags("/?sort=standing")).containsExactly("S-014", "S-100", "S-002");
        assertThat(tags("/?q=b4rn-0003")).containsExactly("S-100");
        assertThat(tags("/?standing=cleared")).containsExactly("S-014");
        assertThat(tags("/?standing=due")).containsExactly("S-100");
        assertThat(tags("/?from=2")).containsExactly("S-100");
        assertThat(tags("/?session=band-32&standing=unproven")).hasSizeLessThanOrEqualTo(3);
        assertThat(served.get("/").body()).contains("3 drives: 1 cleared, 1 due, 1 failed.");
    }

    @Test
    void whatIsAskedWrongIsSaid() {
        for (String path : List.of(
                "/?sort=colour",
                "/?standing=fine",
                "/?session=nope",
                "/?from=-1",
                "/?from=x",
                "/?q=" + "a".repeat(101),
                "/labels?size=9x9",
                "/labels?drive=,,,",
                "/?q=a&q=b")) {
            HttpResponse<String> answer = served.get(path, "Accept", "text/html");
            assertThat(answer.statusCode()).as(path).isEqualTo(400);
            assertThat(answer.body()).contains("<h1>").doesNotContain("Exception");
        }
        assertThat(served.get("/drives/S-999").statusCode()).isEqualTo(404);
        assertThat(served.get("/records/" + "0".repeat(64)).statusCode()).isEqualTo(404);
    }

    @Test
    void whatCanBeTakenTonightIsTrustedForTheSession() {
        String session = served.roster.sessions().get(0).name();
        String page = served.get("/tonight?session=" + session).body();
        assertThat(page.substring(page.indexOf("Take these"), page.indexOf("Test these again")))
                .contains("S-014")
                .doesNotContain("S-100", "S-002");
        assertThat(page.substring(page.indexOf("Test these again"))).contains("S-100");
    }

    @Test
    void aDrivesPageLeadsToItsReportsAndRecords() throws IOException {
        String page = served.get("/drives/S-014").body();
        Matcher href = Pattern.compile("/records/[0-9a-f]{64}").matcher(page);
        assertThat(href.find()).isTrue();
        assertThat(served.get(href.group()).body()).contains("How long writes took");
        String json = served.get(href.group() + ".json").body();
        assertThat(RecordJson.read(json.getBytes(StandardCharsets.UTF_8))
                        .drive()
                        .serial())
                .isEqualTo("B4RN-0001");
    }

    @Test
    void theListForSpreadsheetsIsTheOneShown() {
        String csv = served.get("/drives.csv?standing=cleared").body();
        assertThat(csv.lines()).hasSize(2);
        assertThat(csv).contains("S-014");
    }

    /** The page reloads itself on each event that differs from the one before; the same one may come twice. */
    @Test
    @Timeout(60)
    void aWaitingPageIsToldOfARecordThatArrives() throws Exception {
        HttpResponse<InputStream> live = java.net.http.HttpClient.newHttpClient()
                .send(served.request("/live").GET().build(), HttpResponse.BodyHandlers.ofInputStream());
        try (InputStream in = live.body()) {
            String first = event(in);
            served.desk.note("S-014", "new cable");
            String news = event(in);
            while (news.equals(first)) {
                news = event(in);
            }
            assertThat(news).isEqualTo("data: " + served.roster.version());
        }
    }

    /** The next event's data; beats are passed over. */
    private static String event(InputStream in) throws IOException {
        StringBuilder line = new StringBuilder();
        for (int c = in.read(); c >= 0; c = in.read()) {
            if (c != '\n') {
                line.append((char) c);
            } else if (line.toString().startsWith("data: ")) {
                return line.toString();
            } else {
                line.setLength(0);
            }
        }
        throw new AssertionError("the server ended the stream");
    }

    /** As a tray asks for them: of the drives named, in their order, and of nothing else. */
    @Test
    void aTagThatIsMistypedIsGuessed() {
        assertThat(served.get("/drives/S-01").body())
                .contains("did you mean S-014?")
                .contains("list of all drives");
    }

    /** A code with an address of this computer alone leads nowhere from the phone that reads it. */
    @Test
    void labelsBearNoCodeThatNoPhoneCanFollow() {
        assertThat(served.get("/labels?drive=S-014").body())
                .contains("These labels bear no code")
                .doesNotContain("class=\"qr\"");
        try (Served crew = new Served(folder.resolve("crew"), Served::foundByPhones)) {
            crew.desk.enter(Shows.pass("B4RN-0099", Shows.START).signed(crew.key), "S-099");
            assertThat(crew.get("/labels?drive=S-099").body())
                    .contains("class=\"qr\"")
                    .doesNotContain("bear no code");
        }
    }

    @Test
    void labelsOfSeveralDrivesCanBeAskedFor() {
        String one = served.get("/labels?drive=S-014").body();
        assertThat(one).contains("One label.");
        String two = served.get("/labels?drive=S-014,S-014").body();
        assertThat(two).contains("2 labels.").contains("value=\"S-014,S-014\"");
        assertThat(served.get("/labels?drive=,S-014,").body()).contains("One label.");
        assertThat(served.get("/labels?drive=S-014,no-such").statusCode()).isEqualTo(404);
        assertThat(served.get("/labels?drive=" + "S-014,".repeat(90)).statusCode())
                .isEqualTo(400);
    }

    /** HTML Living Standard, as checked by the Nu Html Checker. */
    @Test
    void thePagesAreSoundHtml() throws Exception {
        for (String path : List.of(
                "/",
                "/?q=nothing-like-it",
                "/tonight",
                "/tonight?session=band-32",
                "/drives/S-014",
                "/labels",
                "/labels?drive=S-014&size=40x20",
                "/enter")) {
            EmbeddedValidator validator = new EmbeddedValidator();
            validator.setOutputFormat(EmbeddedValidator.OutputFormat.GNU);
            String said = validator.validate(
                    new ByteArrayInputStream(served.get(path).body().getBytes(StandardCharsets.UTF_8)));
            assertThat(said).as(path).isBlank();
        }
    }
}
