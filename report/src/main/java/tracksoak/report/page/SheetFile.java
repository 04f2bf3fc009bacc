package tracksoak.report.page;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import org.jspecify.annotations.Nullable;
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

    /** Writes a page to {@code file}, whole or not at all; what was there before is still there if it fails. */
    static void write(Path file, String page) throws IOException {
        Path name = file.getFileName();
        if (name == null) {
            throw new IOException("not a file: " + file);
        }
        Path draft = file.resolveSibling("." + name + ".part");
        try {
            Files.write(draft, page.getBytes(StandardCharsets.UTF_8));
            try {
                Files.move(draft, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            } catch (AtomicMoveNotSupportedException e) {
                Files.move(draft, file, StandardCopyOption.REPLACE_EXISTING);
            }
        } finally {
            Files.deleteIfExists(draft);
        }
    }
}
