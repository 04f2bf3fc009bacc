package tracksoak.report.roster.web.page.view;

import tracksoak.report.page.view.Shown;

/**
 * What is stuck on a drive.
 *
 * @param tag the crew's tag
 * @param tagClass how large its letters can be: {@code tag}, {@code tag long} or {@code tag longest}
 * @param state picks the shape, as in {@link Standing}
 * @param word the standing in words, and of a cleared drive the minutes seen
 * @param flag what must be settled before it is stuck on, empty for nothing
 * @param session the session it stands for, empty where none was asked for
 * @param tested when it was tested
 * @param until until when it is trusted
 * @param tracks what it carries
 * @param address of its page, as the QR code holds it; empty for none, and so is the code
 * @param qrSize modules of the QR code along one side, with its quiet zone
 * @param qrPath its dark modules as a path of unit squares
 */
public record Label(
        Shown tag,
        String tagClass,
        String state,
        String word,
        String flag,
        Shown session,
        String tested,
        String until,
        String tracks,
        String address,
        int qrSize,
        String qrPath) {}
