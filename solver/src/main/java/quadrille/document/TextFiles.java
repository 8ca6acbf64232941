package quadrille.document;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/** Texts in UTF-8, read strictly; {@link FileStore} by the usual rules. */
public final class TextFiles {

  private TextFiles() {}

  /**
   * The text of a file in UTF-8.
   *
   * @throws InvalidDocumentException where the bytes are no UTF-8, with the line
   * @throws IOException where the file cannot be read
   */
  public static String read(Path file) throws IOException, InvalidDocumentException {
    Path name = file.getFileName();
    return decode(name == null ? file.toString() : name.toString(), FileStore.USUAL.bytes(file));
  }

  /**
   * Decodes UTF-8; nothing is replaced or left out.
   *
   * @param source the document's name, for the fault
   * @throws InvalidDocumentException where the bytes are no UTF-8, with the line
   */
  public static String decode(String source, byte[] bytes) throws InvalidDocumentException {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharBuffer out = CharBuffer.allocate(bytes.length);
    CoderResult result = decoder.decode(in, out, true);
    out.flip();
    if (!result.isError()) {
      return out.toString();
    }
    int line = 1 + (int) out.chars().filter(c -> c == '\n').count();
    String found =
        String.format(Locale.ROOT, "a byte that is not UTF-8 (0x%02X)", bytes[in.position()]);
    throw new InvalidDocumentException(
        List.of(
            new Fault(
                new Place(source, line, 1, "").toString(),
                found,
                "text in UTF-8; save or export the file as UTF-8")));
  }

  /**
   * Writes a file whole or not at all, by the usual rules; see {@link FileStore#write}.
   *
   * @param overwrite whether an existing file may be replaced
   */
  public static void write(Path file, String text, boolean overwrite) throws IOException {
    FileStore.USUAL.write(file, text, overwrite ? Expected.ANYTHING : Expected.NOTHING);
  }
}
