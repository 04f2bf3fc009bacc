package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Estimate;

/** What a replay says for another session: never to be taken for the verdict of a run. */
final class EstimatePart {

    private EstimatePart() {}

    static Section of(Estimate estimate) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(Prose.of(estimate.sentence()));
        if (!estimate.refused().isEmpty()) {
            blocks.add(Prose.of("Why nothing was estimated:"));
            blocks.add(Bullets.of(estimate.refused()));
        } else {
            blocks.add(Prose.of(
                    "The times the run measured, second by second, were played through the recorder's loop at this"
                            + " session's demand: twice with slow moments as early, as long and as ill placed as the record allows,"
                            + " twice as kindly as it allows. Only where all agree is anything said."));
            List<List<Shown>> rows = new ArrayList<>();
            for (Estimate.Figure figure : estimate.figures()) {
                rows.add(Grid.row(
                        VerdictHead.name(figure.id()),
                        figure.needed(),
                        figure.hopeful() + " (" + word(figure.hopefulMet()) + ")",
                        figure.cautious() + " (" + word(figure.cautiousMet()) + ")"));
            }
            blocks.add(
                    new Grid("Estimated, not measured", List.of("Criterion", "Needed", "At best", "At worst"), rows));
        }
        return new Section("estimate", "Estimate for this session", estimate.sentence(), "", blocks);
    }

    private static String word(@Nullable Boolean met) {
        return met == null ? "unknown" : met ? "met" : "missed";
    }
}
