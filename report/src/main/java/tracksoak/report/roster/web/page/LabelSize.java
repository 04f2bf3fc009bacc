package tracksoak.report.roster.web.page;

import java.util.List;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.view.Option;
import tracksoak.report.roster.web.server.Exchange;
import tracksoak.report.roster.web.server.Refusal;

/** Sizes of label that are easy to buy, in mm, width by height. The style sheet has a rule and a page of paper for each. */
enum LabelSize {
    /** Small enough for a stick. */
    ROLL_40X20("40x20", "40 × 20 mm, one by one"),
    /** Common on rolls. */
    ROLL_50X30("50x30", "50 × 30 mm, one by one"),
    /** Common on rolls. */
    ROLL_62X29("62x29", "62 × 29 mm, one by one"),
    /** For a disk's case. */
    ROLL_89X36("89x36", "89 × 36 mm, one by one"),
    /** Three by eight on a sheet of A4 (ISO 216). */
    SHEET_A4("70x37-a4", "70 × 37 mm, 24 on a sheet of A4");

    private final String code;
    private final String text;

    LabelSize(String code, String text) {
        this.code = code;
        this.text = text;
    }

    /** As in addresses and in the style sheet. */
    String code() {
        return code;
    }

    /** @throws Refusal if there is none of that name */
    static LabelSize of(String code) {
        if (code.isEmpty()) {
            return ROLL_62X29;
        }
        for (LabelSize size : values()) {
            if (size.code.equals(code)) {
                return size;
            }
        }
        throw Exchange.bad("size", "there is no such size of label");
    }

    static List<Option> options(LabelSize chosen) {
        return List.of(values()).stream()
                .map(size -> new Option(size.code, Shown.of(size.text), size == chosen))
                .toList();
    }
}
