// Heads and flows of the pressure side: Newton's rule on the heads of all nodes at once. Links are the pipes, the pump (from
// the tank's level to the source node) and the emitters (from a tier to the open air at its height); each passes a flow
// that only grows with the head across it. Continuous flows are then the minimum of a convex sum over the heads (each
// link's flow integrated over its head), so a step that overshoots is shortened until that sum stops falling: the search
// cannot wander off, whatever the sizes. An emitter below its height passes nothing; no list of open ones is needed.
#include <algorithm>
#include <cmath>
#include <utility>

#include "models/base/expects.hpp"
#include "models/water/network_parts.hpp"

namespace rackwright::water::detail {

namespace {

constexpr int most_rounds = 1000;
constexpr double settled = 1e-8;     // flow amiss at any node, over the pump's flow, that ends the search
constexpr double tolerated = 3e-7;   // the same, that is still an answer
// Added to every link, over shut-off head / pump flow: without it an idle link would be infinitely easy to start, and a
// wide pipe's flow would drown in the rounding of its heads.
constexpr double pipe_resistance = 1e-7;
constexpr double end_resistance = 1e-8;  // pump and emitters
// The same of an emitter that passes alike under any head: it opens over its first tenth of a millimetre or so. Were it sharper, the search
// would go from one such edge to the next for ever where a pump cannot feed them all.
constexpr double edge_resistance = 1e-5;
constexpr double least_exponent = 3e-4;     // of an emitter; below it, one that passes alike under any head

enum class LinkKind { pipe, pump, emitter };

struct Link {
  LinkKind kind;
  int from, to;                 // node index; -1 a fixed head
  double fixed_head = 0.0;      // of the end that is no node [m]
  PipeFriction friction{Metres(1.0), Metres(0.0)};  // of a pipe
  double minor = 0.0;           // m per (L/h)^2
  int owner = -1;               // pipe index, or tier node
};

// Flow through a link [L/h] and how it grows with the head across it [L/h/m].
struct Passing { double flow, conductance; };

// One linear system of conductances between nodes and to the ground. Nodes are eliminated one after another as in the
// star-mesh transform, which only ever adds conductances: no size of theirs can spoil it.
class Mesh {
 public:
  explicit Mesh(std::size_t nodes) : nodes_(nodes), between_(nodes * nodes), ground_(nodes), inflow_(nodes) {}

  void join(std::size_t a, std::size_t b, double conductance) {
    between_[a * nodes_ + b] += conductance;
    between_[b * nodes_ + a] += conductance;
  }
  void ground(std::size_t a, double conductance) { ground_[a] += conductance; }
  void feed(std::size_t a, double flow) { inflow_[a] += flow; }

  // Heads of all nodes over the ground; uses up the system.
  std::vector<double> heads() {
    std::vector<double> total(nodes_);
    for (std::size_t k = nodes_; k-- > 0;) {
      total[k] = ground_[k];
      for (std::size_t j = 0; j < k; ++j) total[k] += between_[k * nodes_ + j];
      ENSURES(total[k] > 0.0);
      for (std::size_t i = 0; i < k; ++i) {
        const double share = between_[i * nodes_ + k] / total[k];
        if (share == 0.0) continue;
        ground_[i] += share * ground_[k];
        inflow_[i] += share * inflow_[k];
        for (std::size_t j = 0; j < k; ++j)
          if (j != i) between_[i * nodes_ + j] += share * between_[k * nodes_ + j];
      }
    }
    std::vector<double> head(nodes_);
    for (std::size_t k = 0; k < nodes_; ++k) {
      double sum = inflow_[k];
      for (std::size_t j = 0; j < k; ++j) sum += between_[k * nodes_ + j] * head[j];
      head[k] = sum / total[k];
    }
    return head;
  }

 private:
  std::size_t nodes_;
  std::vector<double> between_, ground_, inflow_;
};

class Solver {
 public:
  explicit Solver(const Network& network) : network_(network) { build(); }

  Pressures run() {
    settle();
    // Once more with the added resistance measured by the flow there is instead of the pump's greatest.
    scale_ = std::max(passing(links_.back(), fall(links_.back(), head_)).flow, 1e-6 * scale_);
    settle();
    return answer();
  }

 private:
  void build();
  void settle();
  [[nodiscard]] double amiss(std::vector<double>& net_inflow, std::vector<Passing>& passed) const;
  [[nodiscard]] std::vector<double> newton_change(const std::vector<double>& net_inflow, const std::vector<Passing>& passed) const;
  [[nodiscard]] double step_length(const std::vector<double>& change) const;
  [[nodiscard]] Pressures answer() const;
  void blame(Pressures& result) const;

  [[nodiscard]] double added_to(double share) const { return share * network_.pump.shutoff.value() / scale_; }
  [[nodiscard]] double fall(const Link& link, const std::vector<double>& head) const {
    const double from = link.from < 0 ? link.fixed_head : head[static_cast<std::size_t>(link.from)];
    const double to = link.to < 0 ? link.fixed_head : head[static_cast<std::size_t>(link.to)];
    return from - to;
  }
  [[nodiscard]] Passing passing(const Link& link, double fall) const;
  [[nodiscard]] Passing through_pump(double fall) const;
  [[nodiscard]] Passing through_pipe(const Link& link, double fall) const;
  [[nodiscard]] Passing through_emitter(double fall) const;

  const Network& network_;
  std::vector<double> head_;      // by node
  std::vector<char> pressed_;     // does pressure reach the node
  std::vector<Link> links_;       // the pump last
  double scale_ = 1.0;            // flow by which flows are judged [L/h]
  bool settled_ = false;
};

void Solver::build() {
  pressed_ = pressurised(network_);
  const double shutoff = network_.pump.shutoff.value();
  scale_ = network_.pump.full_flow.value();
  for (std::size_t i = 0; i < network_.nodes.size(); ++i)
    head_.push_back(pressed_[i] ? 0.9 * shutoff : network_.nodes[i].height.value());
  for (const int tier : tiers_of(network_)) {
    if (!pressed_[static_cast<std::size_t>(tier)]) continue;
    Link link{LinkKind::emitter, tier, -1};
    link.fixed_head = network_.nodes[static_cast<std::size_t>(tier)].height.value();
    link.owner = tier;
    links_.push_back(link);
  }
  for (std::size_t p = 0; p < network_.pipes.size(); ++p) {
    const Pipe& pipe = network_.pipes[p];
    if (!carries_pressure(network_, pipe) || !pressed_[static_cast<std::size_t>(pipe.from)]) continue;
    Link link{LinkKind::pipe, pipe.from, pipe.to};
    link.friction = PipeFriction(pipe.diameter, pipe.length, network_.wall);
    link.minor = minor_loss(LitresPerHour(1.0), pipe.diameter, pipe.minor_k).value();
    link.owner = static_cast<int>(p);
    links_.push_back(link);
  }
  links_.push_back({LinkKind::pump, -1, source_of(network_)});
}

// Root of a rising loss that is at least `head` at `above`: Newton's rule, halving what is left wherever that leads out of it (where
// laminar flow turns turbulent a loss is not convex). `loss(q)` gives head and slope.
template <class Loss>
Passing root_below(double above, double head, const Loss& loss) {
  double below = 0.0, flow = above;
  for (int i = 0; i < 200; ++i) {
    const auto [lost, slope] = loss(flow);
    (lost > head ? above : below) = flow;
    double next = flow - (lost - head) / slope;
    if (!(next >= below && next <= above)) next = 0.5 * (below + above);
    if (std::abs(next - flow) <= 1e-15 * flow) break;
    flow = next;
  }
  return {flow, 1.0 / loss(flow).second};
}

Passing Solver::through_pump(double fall) const {
  const double added = added_to(end_resistance);
  const double full = network_.pump.full_flow.value();
  const double curve = network_.pump.shutoff.value() / (full * full);
  const double lift = fall + network_.pump.shutoff.value();  // curve q |q| + added q = lift
  const double root = std::sqrt(added * added + 4.0 * curve * std::abs(lift));
  return {std::copysign(2.0 * std::abs(lift) / (added + root), lift), 1.0 / root};
}

Passing Solver::through_pipe(const Link& link, double fall) const {
  const double added = added_to(pipe_resistance);
  const double head = std::abs(fall);
  const auto loss = [&](double q) {
    const auto [lost, slope] = link.friction.at(q);
    return std::pair(lost + (link.minor * q + added) * q, slope + 2.0 * link.minor * q + added);
  };
  double above = head / (link.friction.laminar() + added);
  if (link.minor > 0.0) above = std::min(above, std::sqrt(head / link.minor));
  Passing passed = root_below(above, head, loss);
  passed.flow = std::copysign(passed.flow, fall);
  return passed;
}

Passing Solver::through_emitter(double fall) const {
  if (fall <= 0.0) return {0.0, 0.0};
  const Emitter& e = network_.emitter;
  const double added = added_to(e.exponent < least_exponent ? edge_resistance : end_resistance);
  const double most = network_.emitters_per_tier * emitter_flow(e, Metres(fall)).value();
  if (e.exponent < least_exponent) return most < fall / added ? Passing{most, 0.0} : Passing{fall / added, 1.0 / added};
  const double power = 1.0 / e.exponent, scale = network_.emitters_per_tier * e.reference_flow.value();
  return root_below(std::min(most, fall / added), fall, [&](double q) {
    const double lost = e.reference_head.value() * std::pow(q / scale, power);
    return std::pair(lost + added * q, power * lost / q + added);
  });
}

Passing Solver::passing(const Link& link, double fall) const {
  if (link.kind == LinkKind::pump) return through_pump(fall);
  return link.kind == LinkKind::pipe ? through_pipe(link, fall) : through_emitter(fall);
}

// What flows into each node less what flows out; returns the largest.
double Solver::amiss(std::vector<double>& net_inflow, std::vector<Passing>& passed) const {
  net_inflow.assign(head_.size(), 0.0);
  passed.clear();
  for (const Link& link : links_) {
    passed.push_back(passing(link, fall(link, head_)));
    if (link.from >= 0) net_inflow[static_cast<std::size_t>(link.from)] -= passed.back().flow;
    if (link.to >= 0) net_inflow[static_cast<std::size_t>(link.to)] += passed.back().flow;
  }
  double most = 0.0;
  for (const double net : net_inflow) most = std::max(most, std::abs(net));
  return most;
}

std::vector<double> Solver::newton_change(const std::vector<double>& net_inflow, const std::vector<Passing>& passed) const {
  Mesh mesh(head_.size());
  for (std::size_t l = 0; l < links_.size(); ++l) {
    const Link& link = links_[l];
    if (link.from >= 0 && link.to >= 0)
      mesh.join(static_cast<std::size_t>(link.from), static_cast<std::size_t>(link.to), passed[l].conductance);
    else
      mesh.ground(static_cast<std::size_t>(std::max(link.from, link.to)), passed[l].conductance);
  }
  for (std::size_t i = 0; i < head_.size(); ++i) {
    if (pressed_[i]) mesh.feed(i, net_inflow[i]);
    else mesh.ground(i, 1.0);  // not in play: stays where it is
  }
  return mesh.heads();
}

// Share of the change to take: all of it unless the convex sum would be rising by then; else where it is about level.
double Solver::step_length(const std::vector<double>& change) const {
  std::vector<double> head(head_.size());
  const auto rise = [&](double t) {
    for (std::size_t i = 0; i < head.size(); ++i) head[i] = head_[i] + t * change[i];
    double sum = 0.0;
    for (const Link& link : links_) {
      const double growth = (link.from < 0 ? 0.0 : change[static_cast<std::size_t>(link.from)]) -
                            (link.to < 0 ? 0.0 : change[static_cast<std::size_t>(link.to)]);
      sum += passing(link, fall(link, head)).flow * growth;
    }
    return sum;
  };
  const double start = rise(0.0);
  if (start >= 0.0 || rise(1.0) <= -0.1 * start) return 1.0;
  double low = 0.0, high = 1.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high), slope = rise(middle);
    if (slope > -0.1 * start) high = middle;
    else if (slope < 0.9 * start) low = middle;
    else return middle;
  }
  return high;
}

void Solver::settle() {
  std::vector<double> net_inflow;
  std::vector<Passing> passed;
  double most = amiss(net_inflow, passed);
  for (int i = 0; i < most_rounds && most > settled * scale_; ++i) {
    const std::vector<double> change = newton_change(net_inflow, passed);
    const double share = step_length(change);
    for (std::size_t n = 0; n < head_.size(); ++n) head_[n] += share * change[n];
    most = amiss(net_inflow, passed);
  }
  settled_ = most <= tolerated * scale_;
}

Pressures Solver::answer() const {
  Pressures result;
  result.head_m = head_;
  result.settled = settled_;
  result.pipe_flow_lh.assign(network_.pipes.size(), 0.0);
  result.emitted_lh.assign(network_.nodes.size(), 0.0);
  for (const Link& link : links_) {
    const double flow = passing(link, fall(link, head_)).flow;
    if (link.kind == LinkKind::pump) result.pump_flow_lh = flow;
    else if (link.kind == LinkKind::pipe) result.pipe_flow_lh[static_cast<std::size_t>(link.owner)] = flow;
    else result.emitted_lh[static_cast<std::size_t>(link.owner)] = flow;
  }
  if (!settled_) blame(result);
  return result;
}

// Names where the flows do not agree.
void Solver::blame(Pressures& result) const {
  std::vector<double> net_inflow;
  std::vector<Passing> passed;
  const double off = amiss(net_inflow, passed);
  const auto worst = std::find_if(net_inflow.begin(), net_inflow.end(), [off](double net) { return std::abs(net) >= off; });
  result.worst_node = static_cast<int>(worst - net_inflow.begin());
  double most = -1.0;  // flow of the pipe to name
  for (std::size_t l = 0; l < links_.size(); ++l) {
    const Link& link = links_[l];
    if (link.kind != LinkKind::pipe || (link.from != result.worst_node && link.to != result.worst_node)) continue;
    if (std::abs(passed[l].flow) <= most) continue;
    most = std::abs(passed[l].flow);
    result.worst_pipe = link.owner;
  }
}

}  // namespace

Pressures solve_pressures(const Network& network) { return Solver(network).run(); }

}  // namespace rackwright::water::detail
