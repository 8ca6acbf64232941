package quadrille.document;

import java.util.AbstractMap;
import java.util.AbstractSet;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Iterator;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The members of an object, in the order in which they were put. A document has many objects of few
 * members, which take a third here of what a linked hash map takes; beyond a few, members are found
 * by a hash map beside.
 */
final class Members extends AbstractMap<String, Node> {

  private static final int FEW = 16;

  private String[] keys = new String[4];
  private Node[] nodes = new Node[4];
  private int size;
  private @Nullable Map<String, Integer> places;

  @Override
  public int size() {
    return size;
  }

  private int place(@Nullable Object key) {
    if (places != null) {
      return places.getOrDefault(key, -1);
    }
    for (int i = 0; i < size; i++) {
      if (keys[i].equals(key)) {
        return i;
      }
    }
    return -1;
  }

  @Override
  public boolean containsKey(@Nullable Object key) {
    return place(key) >= 0;
  }

  @Override
  public @Nullable Node get(@Nullable Object key) {
    int place = place(key);
    return place < 0 ? null : nodes[place];
  }

  @Override
  public @Nullable Node put(String key, Node node) {
    int place = place(key);
    if (place >= 0) {
      Node before = nodes[place];
      nodes[place] = node;
      return before;
    }
    if (size == keys.length) {
      keys = Arrays.copyOf(keys, 2 * size);
      nodes = Arrays.copyOf(nodes, 2 * size);
    }
    keys[size] = key;
    nodes[size] = node;
    size++;
    if (places != null) {
      places.put(key, size - 1);
    } else if (size > FEW) {
      places = new HashMap<>();
      for (int i = 0; i < size; i++) {
        places.put(keys[i], i);
      }
    }
    return null;
  }

  @Override
  public Set<Map.Entry<String, Node>> entrySet() {
    return new AbstractSet<>() {
      @Override
      public int size() {
        return size;
      }

      @Override
      public Iterator<Map.Entry<String, Node>> iterator() {
        return new Iterator<>() {
          private int next;

          @Override
          public boolean hasNext() {
            return next < size;
          }

          @Override
          public Map.Entry<String, Node> next() {
            if (next >= size) {
              throw new NoSuchElementException();
            }
            next++;
            return Map.entry(keys[next - 1], nodes[next - 1]);
          }
        };
      }
    };
  }
}
