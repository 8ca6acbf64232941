package quadrille.cli;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fault;
import quadrille.document.FileRules;
import quadrille.document.InvalidDocumentException;
import quadrille.document.TextFiles;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;

/**
 * Charts as lines of a stream (NDJSON): one JSON document a line, in UTF-8. Blank lines are passed
 * over. No more than one line is held at a time.
 */
final class ChartLines implements ChartSource {

  /** The longest line; a chart of 32 teeth takes about 20,000 bytes. */
  static final int MOST_BYTES = 4 * 1024 * 1024;

  /** What a line's document is called while it is read; faults get the true place afterwards. */
  private static final String DOCUMENT = "chart";

  private final String name;
  private final InputStream in;
  private final long mostBytes;
  private int line;

  /**
   * @param name what the stream is called in places
   * @param mostBytes after so many without a line end, none is waited for
   */
  ChartLines(String name, InputStream in, long mostBytes) {
    this.name = name;
    this.mostBytes = mostBytes;
    this.in = new BufferedInputStream(in);
  }

  @Override
  public @Nullable ChartItem next() throws StopException {
    while (true) {
      byte @Nullable [] bytes = read();
      if (bytes == null) {
        return null;
      }
      line++;
      if (!blank(bytes)) {
        String place = name + ":" + line;
        return new ChartItem(place, () -> chart(bytes, place));
      }
    }
  }

  /** The next line without its end, cut where it is too long; null at the end of the stream. */
  private byte @Nullable [] read() throws StopException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    long read = 0;
    try {
      for (int b = in.read(); b >= 0; b = in.read()) {
        if (b == '\n') {
          return bytes.toByteArray();
        }
        if (++read > mostBytes) {
          throw StopException.file(
              name
                  + ":"
                  + (line + 1)
                  + ": cannot be read on: a line of more than "
                  + mostBytes
                  + " bytes; "
                  + FileRules.MOST_MEGABYTES
                  + " sets that.");
        }
        if (bytes.size() <= MOST_BYTES) {
          bytes.write(b);
        }
      }
    } catch (IOException e) {
      throw StopException.file(name + ": cannot be read on: " + e.getMessage());
    }
    return read > 0 ? bytes.toByteArray() : null;
  }

  private static boolean blank(byte[] bytes) {
    for (byte b : bytes) {
      if (b != ' ' && b != '\t' && b != '\r') {
        return false;
      }
    }
    return true;
  }

  private static Chart chart(byte[] bytes, String place) throws InvalidDocumentException {
    if (bytes.length > MOST_BYTES) {
      throw new InvalidDocumentException(
          List.of(
              new Fault(
                  place,
                  "a line of more than " + MOST_BYTES + " bytes",
                  "one chart of at most so many")));
    }
    try {
      return ChartReader.json(DOCUMENT, TextFiles.decode(DOCUMENT, bytes));
    } catch (InvalidDocumentException invalid) {
      throw placed(invalid, place);
    }
  }

  /** A line's document has one line, which in the stream is another. */
  private static InvalidDocumentException placed(InvalidDocumentException invalid, String place) {
    List<Fault> faults = new ArrayList<>();
    for (Fault fault : invalid.faults()) {
      String within = fault.place().substring(DOCUMENT.length());
      faults.add(
          new Fault(
              place + (within.startsWith(":1") ? within.substring(2) : within),
              fault.found(),
              fault.allowed()));
    }
    return new InvalidDocumentException(faults);
  }
}
