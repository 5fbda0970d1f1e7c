#include "sim/replication/batch_settle.hpp"

#include <cmath>

#include "models/growth/mat.hpp"

#if defined(__x86_64__) && defined(__GNUC__)
#include <immintrin.h>
#define RACKWRIGHT_LANES 1
#endif

namespace rackwright {
namespace {

constexpr double per_day = 1.0 / minutes_per_day;
constexpr double air_place = (0.0 - ResponseTable::first_node) * (1.0 / ResponseTable::node_step);  // of the room's air, between the first two nodes
static_assert(air_place >= 0.0 && air_place < 1.0);
constexpr double last_node = ResponseTable::nodes - 1 - 1e-9;
constexpr double last_age = MatTable::last / MatTable::step;
// Steepness in time of the flatter and the steeper sprout curve, relative to the species' own (assumed).
constexpr double flatter = 0.7, steeper = 1.4;

}  // namespace

BatchSettler::BatchSettler(const Plan& plan)
    : spoil_(plan.scenario.spoilage),
      usual_excess_(growth::mat_excess(1.0).value() * plan.scenario.line.sowing_density.value()),
      usual_onset_(spoilage::onset(spoil_)),
      usual_lag_(spoil_.mould_lag) {
  for (const GrainPlan& grain : plan.grains) {
    const auto& rows = grain.mats.rows();
    heat_rows_ = rows.size();
    for (const MatRow& row : rows) heat_.push_back(grain.charge * row.heat);
    uncrowded_.push_back(grain.mats.uncrowded());
  }
  for (const SpeciesPlan& species : plan.species) {
    constexpr std::array shapes{1.0, flatter, steeper};
    for (std::size_t i = 0; i < shapes.size(); ++i) {
      germination::Parameters law = species.germination;
      law.shape *= shapes[i];
      const std::vector<double> curve = SproutCurve::of(law);
      sprouts_[i].insert(sprouts_[i].end(), curve.begin(), curve.end());
    }
  }
  sprout_ = sprouts_[0];
  assume(1.0, 1.0, 1.0, 0.0, plan.scenario.spoilage);
}

void BatchSettler::assume(double clock, double heat, double warmth, double flatness, const spoilage::Parameters& spoil) {
  spoil_ = spoil;
#ifdef RACKWRIGHT_LANES
  // Other powers than the usual one need std::pow, which has no lanes.
  lanes_ = __builtin_cpu_supports("avx2") != 0 && spoil_.dead_grain_power == 2.0;
#endif
  dead_scale_ = 1.0 / (spoil_.dead_grain_floor + spoil_.usual_dead_fraction);
  onset_ = spoil_.mould_lag == usual_lag_ ? usual_onset_ : spoilage::onset(spoil_);
  clock_ = clock;
  heat_scale_ = heat;
  excess_per_heat_ = usual_excess_ * warmth;
  // A share of either curve: what lies between two laws of germination is one.
  const double share = std::min(1.0, std::abs(flatness));
  const std::vector<double>& other = sprouts_[flatness > 0.0 ? 1 : 2];
  for (std::size_t i = 0; i < sprout_.size(); ++i) sprout_[i] = sprouts_[0][i] + share * (other[i] - sprouts_[0][i]);
}

double BatchSettler::dead_factor(double dead_fraction) const {
  return spoilage::detail::raised((spoil_.dead_grain_floor + dead_fraction) * dead_scale_, spoil_.dead_grain_power);
}

void BatchSettler::settle_one(Batch& batch, const RoomMarch& room, double now, double humidity_factor) const {
  const double elapsed = (now - batch.settled) * per_day;
  const Increment got = room.since(batch.mark, batch.species, batch.offset + batch.excess);
  batch.settled = now;
  const double pace = batch.water * clock_;
  const double grown = got.growth * pace;
  const double age = batch.growth + 0.5 * grown;
  batch.growth += grown;
  batch.progress += got.rate * batch.vigour;
  if (batch.had_chance < all_had_chance) {
    // Warmth decides over the grain whose time comes while it lasts; what has germinated stays so.
    const double came = share_germinated(batch.species, batch.progress) - batch.had_chance;
    batch.germinated += came * (got.rate > 0.0 ? got.rate_fraction / got.rate : 1.0);
    batch.had_chance += came;
  }
  const double fraction = batch.fraction();
  const double sprouted = batch.germinable * fraction;

  // Grain that the heat keeps from germinating feeds mould like dead grain.
  const double growing = sprouted * uncrowded_[static_cast<std::size_t>(batch.grain)];
  const double dead = fraction < well_sprouted ? dead_factor(1.0 - growing) * batch.dead_inverse : 1.0;
  batch.mould += got.mould * humidity_factor * dead * spoilage::onset_factor(onset_, age) * batch.load;
  batch.sour += got.sour * batch.sour_rate;

  // What it gives until it is settled next, a day on: as it will be half-way, growing as it did.
  const double a_day = got.growth / elapsed;
  const double unit = heat_unit(batch, batch.growth + 0.5 * (a_day * pace), sprouted, pace);
  batch.excess = unit * a_day * excess_per_heat_;
  const double in_air = room.since(batch.mark, batch.species, 0.0).growth;
  const double warmer = room.since(batch.mark, batch.species, batch.offset + batch.excess).growth;
  batch.heat_unit = unit * (in_air > 0.0 ? warmer / in_air : 1.0);
}

double BatchSettler::heat_unit(const Batch& batch, double growth_days, double sprouted, double pace) const {
  const double at = std::min(last_age, std::max(0.0, growth_days * (1.0 / MatTable::step)));
  const int row = static_cast<int>(at);
  const double* heat = heat_.data() + static_cast<std::size_t>(batch.grain) * heat_rows_ + row;
  return sprouted * (heat[0] + (at - row) * (heat[1] - heat[0])) * (pace * heat_scale_);
}

void BatchSettler::sown(Batch& batch) const {
  const double pace = batch.water * clock_;
  batch.heat_unit = heat_unit(batch, batch.growth + 0.5 * pace, batch.germinable * batch.fraction(), pace);
}

#ifdef RACKWRIGHT_LANES

namespace {

#define RACKWRIGHT_LANE __attribute__((target("avx2"), always_inline)) inline

using Four = std::array<Batch*, 4>;

// Four neighbouring fields of four batches, a field to a register, or back.
struct Fields { __m256d a, b, c, d; };

RACKWRIGHT_LANE Fields transposed(const Fields& f) {
  const __m256d ab_low = _mm256_unpacklo_pd(f.a, f.b), ab_high = _mm256_unpackhi_pd(f.a, f.b);
  const __m256d cd_low = _mm256_unpacklo_pd(f.c, f.d), cd_high = _mm256_unpackhi_pd(f.c, f.d);
  return {_mm256_permute2f128_pd(ab_low, cd_low, 0x20), _mm256_permute2f128_pd(ab_high, cd_high, 0x20),
          _mm256_permute2f128_pd(ab_low, cd_low, 0x31), _mm256_permute2f128_pd(ab_high, cd_high, 0x31)};
}
RACKWRIGHT_LANE Fields load(const Four& four, double Batch::*first) {
  return transposed({_mm256_loadu_pd(&(four[0]->*first)), _mm256_loadu_pd(&(four[1]->*first)),
                     _mm256_loadu_pd(&(four[2]->*first)), _mm256_loadu_pd(&(four[3]->*first))});
}
RACKWRIGHT_LANE void store(const Four& four, double Batch::*first, const Fields& fields) {
  const Fields f = transposed(fields);
  _mm256_storeu_pd(&(four[0]->*first), f.a);
  _mm256_storeu_pd(&(four[1]->*first), f.b);
  _mm256_storeu_pd(&(four[2]->*first), f.c);
  _mm256_storeu_pd(&(four[3]->*first), f.d);
}
RACKWRIGHT_LANE __m128i load(const Four& four, int Batch::*field) {
  return _mm_setr_epi32(four[0]->*field, four[1]->*field, four[2]->*field, four[3]->*field);
}
RACKWRIGHT_LANE __m256d all(double x) { return _mm256_set1_pd(x); }
RACKWRIGHT_LANE __m256d clamped(__m256d x, double high) { return _mm256_min_pd(_mm256_max_pd(x, _mm256_setzero_pd()), all(high)); }
// The masked form: gcc 12 warns of the plain one.
RACKWRIGHT_LANE __m256d gathered(const double* table, __m128i place) {
  const __m256d zero = _mm256_setzero_pd();
  return _mm256_mask_i32gather_pd(zero, table, place, _mm256_cmp_pd(zero, zero, _CMP_EQ_OQ), 8);
}
// Linear between two columns of a table, at four places of it.
RACKWRIGHT_LANE __m256d between(const double* low, const double* high, __m128i place, __m256d share) {
  const __m256d a = gathered(low, place), b = gathered(high, place);
  return a + share * (b - a);
}

}  // namespace

// settle_one in four lanes: the same operations in the same order. Neighbouring fields of Batch are moved four at a time.
__attribute__((target("avx2"))) void BatchSettler::settle_four(const Four& four, const RoomMarch& room, double now,
                                                               double humidity_factor) const {
  Fields air = load(four, &Batch::offset);  // offset, water, excess, heat_unit
  Fields clock = load(four, &Batch::growth);  // growth, progress, had_chance, germinated
  Fields hazard = load(four, &Batch::mould);  // mould, sour, settled, sour_rate
  const Fields own = load(four, &Batch::vigour);  // vigour, germinable, dead_inverse, load
  const __m256d elapsed = (all(now) - hazard.c) * all(per_day);
  hazard.c = all(now);

  const __m256d warm = clamped((air.a + air.c - all(ResponseTable::first_node)) * all(1.0 / ResponseTable::node_step), last_node);
  const __m128i node = _mm256_cvttpd_epi32(warm);
  const __m256d share = warm - _mm256_cvtepi32_pd(node);
  const auto stride = static_cast<int>(room.stride());
  const __m128i rows = _mm_add_epi32(_mm_mullo_epi32(load(four, &Batch::mark), _mm_set1_epi32(ResponseTable::nodes)), node);
  const __m128i row = _mm_mullo_epi32(rows, _mm_set1_epi32(stride));
  const __m128i species = load(four, &Batch::species);
  const __m128i own_row = _mm_add_epi32(row, _mm_mullo_epi32(species, _mm_set1_epi32(3)));
  const double* low = room.integrals();
  const double* high = low + stride;
  const auto curve = [&](std::size_t c, __m128i place) __attribute__((target("avx2"), always_inline)) {
    return between(low + c, high + c, place, share);
  };
  const __m256d pace = air.b * all(clock_);
  const __m256d by_room = curve(ResponseTable::growth(0), own_row);
  const __m256d grown = by_room * pace;
  const __m256d mean_age = _mm256_max_pd(clock.a + all(0.5) * grown, _mm256_setzero_pd());
  clock.a += grown;
  const __m256d rate = curve(ResponseTable::rate(0), own_row);
  clock.b += rate * own.a;
  const __m256d sprouting = _mm256_cmp_pd(clock.c, all(all_had_chance), _CMP_LT_OQ);
  if (_mm256_movemask_pd(sprouting) != 0) {
    const __m256d place = _mm256_min_pd(all(SproutCurve::last), clock.b / (all(1.0) + clock.b) * all(SproutCurve::cells));
    const __m128i cell = _mm256_cvttpd_epi32(place);
    const __m256d t = place - _mm256_cvtepi32_pd(cell);
    const __m128i at = _mm_slli_epi32(_mm_add_epi32(cell, _mm_mullo_epi32(species, _mm_set1_epi32(SproutCurve::cells))), 2);
    const auto c = [&](int k) __attribute__((target("avx2"), always_inline)) { return gathered(sprout_.data() + k, at); };
    const __m256d came = c(0) + t * (c(1) + t * (c(2) + t * c(3))) - clock.c;
    const __m256d warm_share = curve(ResponseTable::rate_fraction(0), own_row) / rate;
    const __m256d kept = _mm256_blendv_pd(all(1.0), warm_share, _mm256_cmp_pd(rate, _mm256_setzero_pd(), _CMP_GT_OQ));
    clock.d = _mm256_blendv_pd(clock.d, clock.d + came * kept, sprouting);
    clock.c = _mm256_blendv_pd(clock.c, clock.c + came, sprouting);
  }
  const __m256d begun = _mm256_cmp_pd(clock.c, all(1e-6), _CMP_GT_OQ);
  const __m256d fraction = _mm256_blendv_pd(all(1.0), _mm256_min_pd(clock.d / clock.c, all(1.0)), begun);
  const __m256d sprouted = own.b * fraction;
  const __m128i grain = load(four, &Batch::grain);
  const __m256d growing = sprouted * gathered(uncrowded_.data(), grain);

  const __m256d x = (all(spoil_.dead_grain_floor) + (all(1.0) - growing)) * all(dead_scale_);
  const __m256d ailing = _mm256_cmp_pd(fraction, all(well_sprouted), _CMP_LT_OQ);
  const __m256d dead = _mm256_blendv_pd(all(1.0), x * x * own.c, ailing);
  const __m256d square = mean_age * mean_age, fourth = square * square;
  const __m256d begun_mould = fourth / (fourth + all(onset_.lag4)) * all(onset_.scale);
  hazard.a += curve(ResponseTable::mould, row) * all(humidity_factor) * dead * begun_mould * own.d;
  hazard.b += curve(ResponseTable::sour, row) * hazard.d;

  const __m256d a_day = by_room / elapsed;
  const __m256d age = clamped((clock.a + all(0.5) * (a_day * pace)) * all(1.0 / MatTable::step), last_age);
  const __m128i age_row = _mm256_cvttpd_epi32(age);
  const __m128i heat_row = _mm_add_epi32(_mm_mullo_epi32(grain, _mm_set1_epi32(static_cast<int>(heat_rows_))), age_row);
  const __m256d heat = between(heat_.data(), heat_.data() + 1, heat_row, age - _mm256_cvtepi32_pd(age_row));
  const __m256d unit = sprouted * heat * (pace * all(heat_scale_));
  air.c = unit * a_day * all(excess_per_heat_);
  const __m128i air_row = _mm_add_epi32(_mm_mullo_epi32(_mm_mullo_epi32(load(four, &Batch::mark), _mm_set1_epi32(ResponseTable::nodes)), _mm_set1_epi32(stride)),
                                        _mm_mullo_epi32(species, _mm_set1_epi32(3)));
  const double* in_air_low = low + ResponseTable::growth(0);
  const __m256d in_air = between(in_air_low, in_air_low + stride, air_row, all(air_place));
  const __m256d next = clamped((air.a + air.c - all(ResponseTable::first_node)) * all(1.0 / ResponseTable::node_step), last_node);
  const __m128i next_node = _mm256_cvttpd_epi32(next);
  const __m256d warmer = between(in_air_low, in_air_low + stride, _mm_add_epi32(air_row, _mm_mullo_epi32(next_node, _mm_set1_epi32(stride))),
                                 next - _mm256_cvtepi32_pd(next_node));
  air.d = unit * _mm256_blendv_pd(all(1.0), warmer / in_air, _mm256_cmp_pd(in_air, _mm256_setzero_pd(), _CMP_GT_OQ));
  store(four, &Batch::offset, air);
  store(four, &Batch::growth, clock);
  store(four, &Batch::mould, hazard);
}

void BatchSettler::settle(std::span<Batch> batches, const RoomMarch& room, double now, double humidity_factor) {
  if (!lanes_) {
    for (Batch& batch : batches) settle_one(batch, room, now, humidity_factor);
    return;
  }
  for (std::size_t b = 0; b < batches.size(); b += 4) {
    const auto lane = [&](std::size_t i) { return b + i < batches.size() ? &batches[b + i] : &nobody_; };
    settle_four({lane(0), lane(1), lane(2), lane(3)}, room, now, humidity_factor);
  }
}

#else

void BatchSettler::settle(std::span<Batch> batches, const RoomMarch& room, double now, double humidity_factor) {
  for (Batch& batch : batches) settle_one(batch, room, now, humidity_factor);
}

#endif

}  // namespace rackwright
