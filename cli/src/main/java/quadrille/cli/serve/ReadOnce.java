package quadrille.cli.serve;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.document.Expected;
import quadrille.document.InvalidDocumentException;

/**
 * What files said when they were read last, as long as their bytes stay the same: to read a file is
 * quick, to understand it is not. The files used longest ago are forgotten first.
 */
final class ReadOnce<T> {

  private record Known<T>(Expected bytes, T value) {}

  private final Map<String, Known<T>> known;

  /**
   * @param most files that are kept in mind
   */
  ReadOnce(int most) {
    this.known =
        new LinkedHashMap<>(16, 0.75f, true) {
          private static final long serialVersionUID = 1L;

          @Override
          protected boolean removeEldestEntry(Map.Entry<String, Known<T>> eldest) {
            return size() > most;
          }
        };
  }

  /** Understands a file. */
  interface Reading<T> {
    T read() throws InvalidDocumentException;
  }

  T get(String name, byte[] bytes, Reading<T> reading) throws InvalidDocumentException {
    Expected revision = Expected.bytes(bytes);
    synchronized (known) {
      @Nullable Known<T> before = known.get(name);
      if (before != null && before.bytes().equals(revision)) {
        return before.value();
      }
    }
    T value = reading.read();
    synchronized (known) {
      known.put(name, new Known<>(revision, value));
    }
    return value;
  }
}
