// How the page looks: by day, by night, on a phone and on paper. Straw, slate and leaf; every pair that must be told
// apart differs in lightness and in blue against orange, which all eyes tell.

#include "sim/report/html_parts.hpp"

namespace rackwright::report::html {
namespace {

constexpr std::string_view colours = R"(
:root{color-scheme:light dark;--paper:#fdfcf8;--sheet:#f3f0e6;--ink:#23261f;--soft:#555b4d;--rule:#d9d4c3;
--served:#0a6173;--wanted:#b3610c;--alarm:#a12a3f;--mat:#2f6b3a;--room:#5a4796;--plain:#6d7480;--water:#3d7fb0}
@media (prefers-color-scheme:dark){:root{--paper:#16181a;--sheet:#212427;--ink:#ecebe4;--soft:#b5b8ae;--rule:#3d4145;
--served:#62c3d6;--wanted:#f0a65a;--alarm:#f28c9c;--mat:#83c98f;--room:#b9a8f2;--plain:#a3abb8;--water:#7fb8e3}}
)";

constexpr std::string_view page = R"(
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:1.02rem/1.55 Georgia,'Noto Serif',serif;overflow-wrap:anywhere}
main,header,footer{max-width:50rem;margin:0 auto;padding:0 1rem}
header{padding-top:1.6rem}
h1{font-size:1.25rem;font-weight:normal;color:var(--soft);margin:0}
h2{font-size:1.25rem;margin:2.6rem 0 .6rem;padding-top:.7rem;border-top:2px solid var(--rule)}
.lead{font-size:1.5rem;line-height:1.35;margin:.5rem 0 1rem}
.grave{border-left:.4rem solid var(--alarm);padding:.3rem .8rem;font-weight:bold}
.figures{display:grid;grid-template-columns:repeat(auto-fit,minmax(13.5rem,1fr));gap:.2rem 1.2rem;margin:1.2rem 0}
.figures div{border-bottom:1px solid var(--rule);padding:.35rem 0}
dt{color:var(--soft);font-size:.92rem}
dd{margin:0;font-weight:bold}
nav ul{columns:13rem;padding-left:1.1rem;margin:.4rem 0}
a{color:var(--served)}
a:focus-visible,summary:focus-visible,.box:focus-visible,pre:focus-visible{outline:3px solid var(--wanted);outline-offset:2px}
figure{margin:1.2rem 0}
.name{font-weight:bold;margin:0 0 .4rem}
.aside{color:var(--soft);font-size:.92rem}
figcaption{color:var(--soft);font-size:.95rem;margin:.4rem 0}
details{margin:.5rem 0}
summary{cursor:pointer;padding:.25rem 0;color:var(--served)}
.box,pre{overflow-x:auto;max-width:100%;overflow-wrap:normal;scrollbar-width:thin;scrollbar-color:var(--plain) transparent}
details .box{max-height:26rem;overflow-y:auto}
pre{background:var(--sheet);padding:.8rem;font-size:.85rem}
table{border-collapse:collapse;font-size:.92rem;margin:.6rem 0}
caption{text-align:left;color:var(--soft);font-style:italic;padding-bottom:.3rem}
th,td{white-space:nowrap;border-bottom:1px solid var(--rule);padding:.28rem .7rem .28rem 0;text-align:right;vertical-align:top;
font-variant-numeric:tabular-nums}
tbody th,thead th,td.w{text-align:left;font-weight:normal}
thead th{font-weight:bold;vertical-align:bottom}
thead th.n{text-align:right}
td.w{min-width:min(20rem,60vw);white-space:normal}thead th{white-space:normal}
footer{color:var(--soft);font-size:.9rem;padding:2rem 1rem}
)";

constexpr std::string_view pictures = R"(
svg{display:block;width:100%;height:auto;background:var(--sheet);border-radius:.3rem}
svg text{font:15px system-ui,sans-serif;fill:var(--ink)}
svg text.age{font-size:10px;fill:var(--soft)}svg text.on-mat{fill:var(--paper)}
svg text.small{fill:var(--soft)}svg text.strong{font-weight:bold}svg text.strong,svg text.halo{paint-order:stroke;stroke:var(--sheet);stroke-width:5px;stroke-linejoin:round}
.grid{stroke:var(--rule);stroke-width:1}.axis{stroke:var(--soft);stroke-width:1.5}
.joined{fill:none;stroke:var(--soft);stroke-width:2}.asked{stroke:var(--alarm);stroke-width:2;stroke-dasharray:7 5}
.touch{fill:transparent}.track{fill:var(--rule);fill-opacity:.45}
.outer-served,.band-served{fill:var(--served)}.outer-wanted,.band-wanted{fill:var(--wanted)}
.outer-room,.band-room{fill:var(--room)}.outer-outdoors,.band-outdoors{fill:var(--wanted)}
[class^=outer-]{fill-opacity:.18}[class^=band-]{fill-opacity:.34}
[class^=mid-]{fill:none;stroke-width:2.2}
.mid-served{stroke:var(--served)}.mid-wanted{stroke:var(--wanted);stroke-dasharray:6 4}
.mid-room{stroke:var(--room)}.mid-outdoors{stroke:var(--wanted);stroke-dasharray:6 4}
.bar-served,.dot-served{fill:var(--served)}.bar-wanted{fill:var(--wanted)}.bar-alarm{fill:var(--alarm)}
.bar-plain,.dot-plain{fill:var(--plain)}
.dot-plain{fill-opacity:.75}.dot-alarm{fill:none;stroke:var(--alarm);stroke-width:1.6}
.ring{fill:none;stroke:var(--served);stroke-width:3}
.mat{fill:var(--mat)}.tray{fill:var(--plain)}.frame{stroke:var(--plain);stroke-width:3}.ground{stroke:var(--soft);stroke-width:2}
.tank{fill:none;stroke:var(--plain);stroke-width:2.5}.water{fill:var(--water);fill-opacity:.55}
.pipe{fill:none;stroke:var(--water);stroke-width:2.5}.drain{fill:none;stroke:var(--water);stroke-width:2.5;stroke-dasharray:3 4}.pump{fill:var(--paper);stroke:var(--water);stroke-width:3}
.thin{stroke-width:.6}.measure{stroke:var(--soft);stroke-width:1.2}
)";

constexpr std::string_view sizes = R"(
/* A table may stand out to the right of the text where there is room. */
@media (min-width:66rem){section>.box,section>details>.box,figure>details>.box{width:fit-content;max-width:calc(50vw + 23rem)}}
@media (max-width:34rem){svg text{font-size:22px}svg text.age{display:none}.lead{font-size:1.25rem}body{font-size:1rem}
svg text.month{font-size:18px}table{font-size:.86rem}th,td{padding-right:.5rem}tbody th{white-space:normal;min-width:5.5rem}
td.w{min-width:7.5rem}h2{margin-top:2rem}}
@page{margin:16mm}
@media print{:root{--paper:#fff;--sheet:#fff;--ink:#000;--soft:#444;--rule:#bbb;--served:#0a6173;--wanted:#b3610c;--alarm:#a12a3f;
--mat:#2f6b3a;--room:#5a4796;--plain:#6d7480;--water:#3d7fb0}
body{font-size:10.5pt}nav,details:not([open]){display:none}main,header,footer{max-width:none;padding:0}
figure,tr,.figures div{break-inside:avoid}h2{break-after:avoid}.box,details .box{overflow:visible;max-height:none}
svg{max-width:150mm;background:none;print-color-adjust:exact}table{font-size:8.5pt}a{color:inherit;text-decoration:none}}
)";

}  // namespace

std::string style_sheet() {
  return std::string(colours.substr(1)) + std::string(page.substr(1)) + std::string(pictures.substr(1)) +
         std::string(sizes.substr(1));
}

}  // namespace rackwright::report::html
