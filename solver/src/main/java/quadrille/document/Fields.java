package quadrille.document;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The members of an object. Where a fault says that there is no object, it is empty and silent. */
public final class Fields {

  private final Node node;
  private final Node standIn;
  private final Set<String> misnamed = new HashSet<>();

  Fields(Node node, Node standIn) {
    this.node = node;
    this.standIn = standIn;
  }

  /** Notes that a key is there by another name, of which a fault tells: it is not missed too. */
  void misnamed(String key) {
    if (!node.members().containsKey(key)) {
      misnamed.add(key);
    }
  }

  /** The object itself, to report something about it. */
  public Node node() {
    return node;
  }

  /** The keys, as written. */
  public List<String> keys() {
    return List.copyOf(node.members().keySet());
  }

  /** Whether a member is there, be it under a name of which a fault tells. */
  public boolean has(String key) {
    return node.members().containsKey(key) || misnamed.contains(key);
  }

  /** A member that must be there; whichever reader is asked of it reports that it is not. */
  public Node required(String key) {
    @Nullable Node member = node.members().get(key);
    if (member != null) {
      return member;
    }
    return node.isObject() && !misnamed.contains(key) ? node.missing(key) : standIn;
  }

  /** A member that may be left out. A {@code null} is a value, and most readers refuse it. */
  public Optional<Node> optional(String key) {
    return Optional.ofNullable(node.members().get(key));
  }
}
