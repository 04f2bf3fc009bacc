package tracksoak.report.page;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.chart.Island;
import tracksoak.report.page.view.CriterionView;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.SheetView;
import tracksoak.report.page.view.Shown;
import tracksoak.report.page.view.VerdictView;

/** What all sheets have in common: one HTML file that carries its record and asks nothing of any network. */
final class SheetFile {

    private SheetFile() {}

    /**
     * What a sheet is about.
     *
     * @param kind begins the name offered for the downloaded record: {@code record}, {@code climb}, {@code drill}
     * @param id of the record
     * @param json the record, exactly as it is stored
     */
    record About(String kind, String id, String tool, String json) {}

    /**
     * Renders a sheet.
     *
     * @param ownStyles styles besides those of all sheets
     * @param charts null for a kind of sheet that never draws one
     */
    static String render(
            String template,
            About about,
            String title,
            String ownStyles,
            @Nullable List<ChartData> charts,
            VerdictView head,
            List<CriterionView> criteria,
            List<Section> sections) {
        String script = SheetAssets.pageScript();
        String library = charts == null ? "" : SheetAssets.chartLibrary();
        SheetView sheet = new SheetView(
                title,
                charts == null ? SheetAssets.policy(script) : SheetAssets.policy(library, script),
                SheetAssets.styles() + ownStyles,
                library,
                script,
                charts == null ? "[]" : Island.of(charts),
                head,
                criteria,
                sections,
                about.json(),
                about.kind() + "-" + about.id().replaceAll("[^0-9A-Za-z-]", "_") + ".json",
                Units.bytes(about.json().getBytes(StandardCharsets.UTF_8).length),
                Shown.clean(about.tool()),
                Shown.clean(about.id()));
        TemplateEngine engine = TemplateEngine.createPrecompiled(
                null, ContentType.Html, SheetFile.class.getClassLoader(), "tracksoak.report.templates");
        StringOutput output = new StringOutput();
        engine.render(template, sheet, output);
        return output.toString();
    }

    /** Writes a page to {@code file} in a folder that is there, whole or not at all, for others to read as well. */
    static void write(Path file, String page) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new NoSuchFileException(file.toString());
        }
        AtomicFile.writeForOthers(file, page.getBytes(StandardCharsets.UTF_8));
    }
}
