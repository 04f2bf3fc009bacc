package tracksoak.report.page;

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
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.CriterionView;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.SheetKind;
import tracksoak.report.page.view.SheetView;
import tracksoak.report.page.view.Shown;
import tracksoak.report.page.view.Templates;
import tracksoak.report.page.view.VerdictView;

/** What all sheets have in common: one HTML file that carries its record and works offline. */
public final class SheetFile {

    private SheetFile() {}

    /**
     * What a sheet is about.
     *
     * @param id of the record
     * @param json the record, exactly as it is stored
     */
    record About(SheetKind kind, String id, String tool, String json) {}

    /**
     * What stands on a sheet, from the top.
     *
     * @param first the one picture that matters, unfolded
     * @param charts null for a kind of sheet that never draws one
     */
    record Content(
            VerdictView head,
            List<CriterionView> criteria,
            List<Block> first,
            List<Section> sections,
            @Nullable List<ChartData> charts) {}

    /** Renders a sheet. */
    static String render(About about, String title, Content content) {
        String script = SheetAssets.pageScript();
        List<ChartData> charts = content.charts();
        String library = charts == null ? "" : SheetAssets.chartLibrary();
        SheetView sheet = new SheetView(
                about.kind(),
                title,
                charts == null ? SheetAssets.policy(script) : SheetAssets.policy(library, script),
                SheetAssets.styles(),
                library,
                script,
                charts == null ? "[]" : Island.of(charts),
                content.head(),
                content.criteria(),
                content.first(),
                content.sections(),
                about.json(),
                about.kind().file() + "-" + about.id().replaceAll("[^0-9A-Za-z-]", "_") + ".json",
                Units.bytes(about.json().getBytes(StandardCharsets.UTF_8).length),
                Shown.clean(about.tool()),
                Shown.clean(about.id()));
        return Templates.html("sheet", sheet);
    }

    /**
     * Writes a page to {@code file} in a folder that is there, whole or not at all, for others to read as well.
     *
     * @throws IOException if the file cannot be written; what was there before is then still there
     */
    public static void write(Path file, String page) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new NoSuchFileException(file.toString());
        }
        AtomicFile.writeForOthers(file, page.getBytes(StandardCharsets.UTF_8));
    }
}
