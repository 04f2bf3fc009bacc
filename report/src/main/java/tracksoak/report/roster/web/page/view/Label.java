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
 * @param qrSize modules along one side of the QR code, which holds the address of its page, with its quiet zone; 0 for none
 * @param qrPath its dark modules as a path of unit squares, empty for none
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
        int qrSize,
        String qrPath) {}
