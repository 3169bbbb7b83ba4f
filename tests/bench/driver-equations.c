/* The driver of tests/bench/time-domain.mjs in SUNDIALS CVODE: BDF, dense Jacobian by differences. Two chokes, a stiff source, gates on
 * their own rail; the equations of tests/oracle/oscillator.py, states vA vB iL jA jB gA gB.
 *
 *     driver-equations VALUES UNTIL LONGEST_STEP RTOL ATOL RUNS     writes JSON: version, processor seconds of each run, peaks, steps, evaluations
 */
#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <stdlib.h>
#include <sundials/sundials_config.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <time.h>

enum { N = 7, VALUES = 28 };
typedef struct { double saturation, emission, slope; } Junction;
typedef struct { double constant, series, threshold; } Channel;
/* In the order in which the values are written to the file. */
static struct {
  double voltage, resistance, chokeInductance, chokeResistance, inductance, coilResistance, capacitance, load;
  Channel a, b;
  double gateToSource, gateToDrain, drainToSource;
  Junction body;
  double pullUp, pullDown, rail, clampVoltage, clampResistance;
  Junction cross;
} c;
static double inverse[4][4];

static double junction(double v, Junction p) {
  double v1 = p.emission * log(p.emission / (p.slope * p.saturation));
  if (v >= v1) return p.emission / p.slope - p.saturation + (v - v1) / p.slope;
  return v > -40 * p.emission ? p.saturation * (exp(v / p.emission) - 1) : -p.saturation;
}

static double channel(double g, double v, Channel p) {
  double u = g - p.threshold, full = 0.5 * p.constant * u * u, b, x;
  if (u <= 0) return 0;
  if (v - p.series * full >= u) return full;
  b = 1 + p.constant * p.series * u;
  x = 2 * v / (b + sqrt(fmax(0, b * b - 2 * p.constant * p.series * v)));
  return p.constant * (u * x - x * x / 2);
}

static double clamp(double g) {
  static const Junction below = {1e-12, 0.03, 0.2};
  double i = -junction(-g, below), over = g - c.clampVoltage;
  if (over >= 0.05) return i + over / c.clampResistance;
  return over > -0.05 ? i + (over + 0.05) * (over + 0.05) / (0.2 * c.clampResistance) : i;
}

static int slope(realtype t, N_Vector state, N_Vector out, void *data) {
  double *y = NV_DATA_S(state), *d = NV_DATA_S(out), into[4];
  double va = y[0], vb = y[1], il = y[2], ja = y[3], jb = y[4], ga = y[5], gb = y[6];
  double rail = c.voltage - c.resistance * (ja + jb), across = il + (va - vb) / c.load;
  double xa = junction(ga - vb, c.cross), xb = junction(gb - va, c.cross);
  (void)t, (void)data;
  into[0] = ja - across - channel(ga, va, c.a) + junction(-va, c.body) + xb;
  into[1] = jb + across - channel(gb, vb, c.b) + junction(-vb, c.body) + xa;
  into[2] = (c.rail - ga) / c.pullUp - xa - clamp(ga) - ga / c.pullDown;
  into[3] = (c.rail - gb) / c.pullUp - xb - clamp(gb) - gb / c.pullDown;
  static const int place[4] = {0, 1, 5, 6};
  for (int i = 0; i < 4; i++) {
    d[place[i]] = 0;
    for (int j = 0; j < 4; j++) d[place[i]] += inverse[i][j] * into[j];
  }
  d[2] = (va - vb - c.coilResistance * il) / c.inductance;
  d[3] = (rail - c.chokeResistance * ja - va) / c.chokeInductance;
  d[4] = (rail - c.chokeResistance * jb - vb) / c.chokeInductance;
  return 0;
}

/* Inverts the capacitances of drains and gates by Gauss and Jordan; they are positive definite. */
static void invert(void) {
  double own = c.capacitance + c.drainToSource + c.gateToDrain, gate = c.gateToSource + c.gateToDrain, m[4][8] = {{0}};
  m[0][0] = m[1][1] = own, m[0][1] = m[1][0] = -c.capacitance;
  m[0][2] = m[2][0] = m[1][3] = m[3][1] = -c.gateToDrain, m[2][2] = m[3][3] = gate;
  for (int i = 0; i < 4; i++) m[i][4 + i] = 1;
  for (int k = 0; k < 4; k++) {
    double p = m[k][k];
    for (int j = 0; j < 8; j++) m[k][j] /= p;
    for (int i = 0; i < 4; i++) {
      double f = m[i][k];
      if (i != k) for (int j = 0; j < 8; j++) m[i][j] -= f * m[k][j];
    }
  }
  for (int i = 0; i < 4; i++) for (int j = 0; j < 4; j++) inverse[i][j] = m[i][4 + j];
}

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return t.tv_sec + 1e-9 * t.tv_nsec;
}

int main(int count, char **words) {
  if (count < 7) return 2;
  FILE *file = fopen(words[1], "r");
  double *values = (double *)&c;
  if (!file) return 2;
  for (int i = 0; i < VALUES; i++) if (fscanf(file, "%lf", values + i) != 1) return 2;
  fclose(file);
  invert();
  double until = atof(words[2]), longest = atof(words[3]), rtol = atof(words[4]), atol = atof(words[5]), peaks[5] = {0};
  long steps = 0, evaluations = 0;
  int runs = atoi(words[6]);
  printf("{\"version\": \"%s\", \"seconds\": [", SUNDIALS_VERSION);
  for (int run = 0; run < runs; run++) {
    double began = now();
    SUNContext context;
#if SUNDIALS_VERSION_MAJOR >= 7
    SUNContext_Create(SUN_COMM_NULL, &context);
#else
    SUNContext_Create(NULL, &context);
#endif
    N_Vector y = N_VNew_Serial(N, context);
    N_VConst(0, y);
    void *solver = CVodeCreate(CV_BDF, context);
    SUNMatrix matrix = SUNDenseMatrix(N, N, context);
    SUNLinearSolver linear = SUNLinSol_Dense(y, matrix, context);
    if (CVodeInit(solver, slope, 0, y) || CVodeSStolerances(solver, rtol, atol) || CVodeSetLinearSolver(solver, linear, matrix)) return 3;
    CVodeSetMaxStep(solver, longest);
    CVodeSetStopTime(solver, until);
    for (int i = 0; i < 5; i++) peaks[i] = 0;
    for (realtype t = 0; t < until;) {
      if (CVode(solver, until, y, &t, CV_ONE_STEP) < 0) return 3;
      double *s = NV_DATA_S(y);
      peaks[0] = fmax(peaks[0], fmax(s[0], s[1]));
      peaks[1] = fmax(peaks[1], fabs(s[0] - s[1]));
      peaks[2] = fmax(peaks[2], s[3] + s[4]);
      peaks[3] = fmax(peaks[3], fmax(s[3], s[4]));
      peaks[4] = fmax(peaks[4], fmax(s[5], s[6]));
    }
    CVodeGetNumSteps(solver, &steps);
    long more = 0;
    CVodeGetNumRhsEvals(solver, &evaluations);
    CVodeGetNumLinRhsEvals(solver, &more);
    evaluations += more;
    CVodeFree(&solver), SUNLinSolFree(linear), SUNMatDestroy(matrix), N_VDestroy(y), SUNContext_Free(&context);
    printf("%s%.9g", run ? ", " : "", now() - began);
  }
  printf("], \"peaks\": {\"drain\": %.9g, \"tank\": %.9g, \"supply\": %.9g, \"choke\": %.9g, \"gate\": %.9g}, ", peaks[0], peaks[1], peaks[2], peaks[3], peaks[4]);
  printf("\"steps\": %ld, \"evaluations\": %ld}\n", steps, evaluations);
  return 0;
}
