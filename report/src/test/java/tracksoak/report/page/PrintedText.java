package tracksoak.report.page;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

/**
 * What text stands on each page of a PDF that Chromium printed (ISO 32000-1, 7.7.3.3 and 9.4). A text is given as the numbers of
 * its glyphs, four digits each: all pages share their fonts, so equal texts in one font are equal.
 */
public final class PrintedText {

    private static final int DIGITS = 4;
    private static final Pattern PAGE = Pattern.compile("\n(\\d+) 0 obj\\s*<<\\s*/Type\\s*/Page\\b");
    /** What a page or a part of it is made of: its own text, and parts that are drawn on it. */
    private static final Pattern PARTS = Pattern.compile("/(?:Contents|X\\d+)\\s+(\\d+)\\s+0\\s+R");

    private static final Pattern TEXT = Pattern.compile("\\bBT\\b(.*?)\\bET\\b", Pattern.DOTALL);
    private static final Pattern SHOWN = Pattern.compile("<([0-9A-F]+)> Tj");

    private PrintedText() {}

    /** The texts of each page in the order in which they were drawn. */
    public static List<List<String>> of(byte[] pdf) {
        String text = new String(pdf, StandardCharsets.ISO_8859_1);
        List<List<String>> pages = new ArrayList<>();
        Matcher page = PAGE.matcher(text);
        while (page.find()) {
            pages.add(texts(pdf, text, page.group(1)));
        }
        return pages;
    }

    /** Texts of so many letters that stand on every page. */
    public static List<String> onEvery(List<List<String>> pages, int letters) {
        return pages.get(0).stream()
                .filter(it -> it.length() == letters * DIGITS)
                .filter(it -> pages.stream().allMatch(page -> page.contains(it)))
                .toList();
    }

    private static List<String> texts(byte[] pdf, String text, String number) {
        int object = text.indexOf("\n" + number + " 0 obj");
        int end = text.indexOf("endobj", object);
        int stream = text.indexOf("stream", object);
        boolean streams = stream >= 0 && stream < end;
        String head = text.substring(object, streams ? stream : end);
        List<String> all = new ArrayList<>();
        if (streams && !head.contains("/Subtype /Image")) {
            // a short one is not packed
            all.addAll(texts(
                    head.contains("/FlateDecode")
                            ? inflated(pdf, stream + "stream".length())
                            : text.substring(stream, end)));
        }
        PARTS.matcher(head).results().forEach(part -> all.addAll(texts(pdf, text, part.group(1))));
        return all;
    }

    private static String inflated(byte[] pdf, int from) {
        int begin = from;
        while (pdf[begin] == '\r' || pdf[begin] == '\n') {
            begin++;
        }
        Inflater inflater = new Inflater();
        inflater.setInput(pdf, begin, pdf.length - begin);
        ByteArrayOutputStream whole = new ByteArrayOutputStream();
        byte[] part = new byte[64 * 1024];
        try {
            while (!inflater.finished()) {
                int got = inflater.inflate(part);
                if (got == 0 && inflater.needsInput()) {
                    throw new AssertionError("a page's text is cut off");
                }
                whole.write(part, 0, got);
            }
        } catch (DataFormatException e) {
            throw new AssertionError("a page's text cannot be read", e);
        } finally {
            inflater.end();
        }
        return whole.toString(StandardCharsets.ISO_8859_1);
    }

    private static List<String> texts(String contents) {
        return TEXT.matcher(contents)
                .results()
                .map(block -> SHOWN.matcher(block.group(1))
                        .results()
                        .map(it -> it.group(1))
                        .collect(Collectors.joining()))
                .filter(it -> !it.isEmpty())
                .toList();
    }
}
