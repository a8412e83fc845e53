package sheet

// style is the look of the HTML form: that of the paper, on one column. On a
// phone the rows of tables become cards, whole pages can be pushed sideways; in
// print nothing is torn between pages.
const style = `:root{color:#1c2127;background:#fff;font:16px/1.45 Go,"Noto Sans","Segoe UI",Arial,sans-serif}
body{margin:0}main{max-width:60rem;margin:0 auto;padding:1.5rem}
h1{font-size:2rem;line-height:1.2;margin:0 0 .5rem}h2{border-top:.25rem solid #1c2127;padding-top:.4rem;margin-top:2.5rem}
h3{margin-top:2rem}h4{margin:1.4rem 0 .3rem}
header{display:flex;gap:2rem;justify-content:space-between;align-items:flex-start}header svg{flex:none}header p{margin:0;color:#5b6067}
.small{font-size:.85rem;color:#5b6067}ul{padding-left:1.4rem}ul.ticks{list-style:none;padding-left:0}
li{margin:.25rem 0}li label{display:flex;gap:.6rem;align-items:baseline}
.wide{overflow-x:auto;margin:.6rem 0}table{border-collapse:collapse;width:100%;font-size:.9rem}
th,td{text-align:left;vertical-align:middle;padding:.35rem .4rem;border-bottom:1px solid #a9adb1}th{background:#f1f2f2}
svg{max-width:100%;height:auto;vertical-align:middle}figure{margin:1rem 0}figcaption{font-size:.85rem;color:#5b6067}
.step{display:grid;grid-template-columns:5rem 1fr auto;gap:.6rem;border-bottom:1px solid #a9adb1;padding:.6rem 0}
.step .number{font-weight:700;font-size:1.3rem;white-space:nowrap}.step p{margin:.1rem 0}.step .good{color:#5b6067;font-size:.85rem}
input{width:1.1rem;height:1.1rem;flex:none}
.reading{background:#f1f2f2;border:1px solid #a9adb1;border-radius:.4rem;padding:.6rem;margin:.8rem 0}
.stand{margin:.7rem 0 .1rem;font-weight:700;font-size:.85rem}
.take{display:grid;grid-template-columns:1.4rem 1fr minmax(7rem,14rem);gap:.5rem;padding:.35rem 0;border-top:1px solid #d3d5d7}.take input{margin:.2rem 0}
.reading hr{border:0;border-bottom:1px solid #5b6067;margin:1.6rem 0 .2rem}
@media screen and (max-width:45rem){main{padding:1rem}h1{font-size:1.6rem}header{flex-direction:column;gap:.8rem}input{width:1.5rem;height:1.5rem}
li label,.take{min-height:2.75rem}.step{grid-template-columns:1fr}.step .number{display:flex;align-items:center;gap:.6rem;min-height:2.75rem}
.take{grid-template-columns:1.8rem 1fr}.take>:last-child{grid-column:2}
.page{overflow-x:auto}.page svg{max-width:none}.views{display:flex;gap:.4rem}.views svg{flex:1 1 0;min-width:0}
.cards thead{position:absolute;clip-path:inset(50%);height:1px;width:1px;overflow:hidden}.cards tr{display:block;border-bottom:2px solid #a9adb1;padding:.4rem 0}
.cards td{display:grid;grid-template-columns:7rem 1fr;gap:.5rem;border:0;padding:.15rem 0;min-height:1.45rem}.cards td::before{content:attr(data-head);color:#5b6067}
.cards td.blank{display:none}}
@media print{.page svg{max-height:23cm}main{max-width:none;padding:0}.step,.take,tr,figure,aside{break-inside:avoid}h2,h3,h4,.stand{break-after:avoid}thead{display:table-header-group}}`
